package authority

import (
	"crypto/sha256"
	"encoding/base64"
	"fmt"

	"github.com/google/uuid"
)

// Profile is the root as a configuration profile for iPhones and iPads (Apple, "Configuration Profile
// Reference": payload com.apple.security.root). The same authority has the same identifiers, so that to
// install it again replaces it.
func (a *Authority) Profile() []byte {
	hash := sha256.Sum256(a.root.Raw)
	identifier := "app.wirewake.authority." + a.Name // a name has nothing that XML would take for its own
	whole := uuid.NewSHA1(uuid.NameSpaceOID, hash[:])
	inner := uuid.NewSHA1(whole, []byte("root"))
	return fmt.Appendf(nil, profile, a.Name, identifier, inner, whole, base64.StdEncoding.EncodeToString(a.root.Raw))
}

const profile = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE plist PUBLIC "-//Apple//DTD PLIST 1.0//EN" "http://www.apple.com/DTDs/PropertyList-1.0.dtd">
<plist version="1.0">
<dict>
	<key>PayloadContent</key>
	<array>
		<dict>
			<key>PayloadCertificateFileName</key>
			<string>wirewake-%[1]s.crt</string>
			<key>PayloadContent</key>
			<data>%[5]s</data>
			<key>PayloadDisplayName</key>
			<string>%[1]s.local, the boat's authority</string>
			<key>PayloadIdentifier</key>
			<string>%[2]s.root</string>
			<key>PayloadType</key>
			<string>com.apple.security.root</string>
			<key>PayloadUUID</key>
			<string>%[3]s</string>
			<key>PayloadVersion</key>
			<integer>1</integer>
		</dict>
	</array>
	<key>PayloadDescription</key>
	<string>Lets this phone open the boat's Wirewake over https. It vouches for %[1]s.local and for private network addresses, and for nothing else.</string>
	<key>PayloadDisplayName</key>
	<string>Wirewake on %[1]s.local</string>
	<key>PayloadIdentifier</key>
	<string>%[2]s</string>
	<key>PayloadRemovalDisallowed</key>
	<false/>
	<key>PayloadType</key>
	<string>Configuration</string>
	<key>PayloadUUID</key>
	<string>%[4]s</string>
	<key>PayloadVersion</key>
	<integer>1</integer>
</dict>
</plist>
`
