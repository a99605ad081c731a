package wayin

import "net/url"

// notes says what keeps phones from using the best way there is.
func (f Finder) notes(best Way) []string {
	if best.Reach == ByComputer {
		if f.Listen.Addr().IsLoopback() {
			return []string{"Only this computer can open the app, because it listens on " + f.Listen.Addr().String() +
				" alone. For phones, start without --listen, or with --listen :" + port(&url.URL{Host: f.Listen.String()}) + "."}
		}
		if all := f.addresses(); len(all) > 0 && f.Introduce {
			return []string{"This computer has the address " + all[0].String() + ", but only private addresses (such as 192.168.1.5) get the boat's " +
				"certificate, so only this computer can open the app. Join a network with private addresses, as a router or a hotspot makes one, or " +
				"serve under a public name with --domain."}
		}
		return []string{"No network was found, so only this computer can open the app. " +
			"Join the network the phones are on, or make a hotspot for them."}
	}
	certificate := f.certificate()
	if certificate == nil {
		return nil
	}
	u, err := url.Parse(best.URL)
	if err != nil {
		return nil
	}
	if u.Scheme == "http" {
		return []string{"The app is served over https, but the address given for phones begins with http. Start with --address https://" + u.Host + "."}
	}
	if err := certificate.VerifyHostname(u.Hostname()); err != nil {
		return []string{"The certificate is not for " + u.Hostname() + ", so phones will refuse it (" + err.Error() +
			"). Start with --address and a name the certificate is for."}
	}
	return nil
}
