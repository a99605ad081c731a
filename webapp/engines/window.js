/**
 * A window of WebKitGTK to be led by its driver, run by gjs: with a profile that stays on the disk, as narrow as a phone,
 * and with all that the console tells on the standard output. The engine's own little browser, when led, has none of it.
 */
import Gio from "gi://Gio";
import GLib from "gi://GLib";
import Gtk from "gi://Gtk?version=3.0";
import WebKit from "gi://WebKit2?version=4.1";

const [profile, leaf] = ARGV;
Gtk.init(null);
const kept = new WebKit.WebsiteDataManager({
  base_data_directory: `${profile}/data`,
  base_cache_directory: `${profile}/cache`,
});
const context = WebKit.WebContext.new_with_website_data_manager(kept);
context
  .get_cookie_manager()
  .set_persistent_storage(`${profile}/cookies`, WebKit.CookiePersistentStorage.TEXT);
context.allow_tls_certificate_for_host(Gio.TlsCertificate.new_from_file(leaf), "localhost");
context.set_automation_allowed(true);
const loop = new GLib.MainLoop(null, false);
context.connect("automation-started", (_, session) => {
  session.connect("create-web-view", () => {
    const settings = new WebKit.Settings({ enable_write_console_messages_to_stdout: true });
    const view = new WebKit.WebView({ web_context: context, is_controlled_by_automation: true, settings });
    const window = new Gtk.Window();
    window.add(view);
    window.show_all();
    view.connect("close", () => loop.quit());
    return view;
  });
});
loop.run();
