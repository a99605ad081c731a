/**
 * A window of WebKitGTK to be led by its driver, run by gjs: with a profile that stays on the disk, as narrow as a phone,
 * and with all that the console tells on the standard output. The engine's own little browser, when led, has none of it.
 */
import GLib from "gi://GLib";
import Gtk from "gi://Gtk?version=3.0";
import WebKit from "gi://WebKit2?version=4.1";

const [profile] = ARGV;
Gtk.init(null);
const kept = new WebKit.WebsiteDataManager({
  base_data_directory: `${profile}/data`,
  base_cache_directory: `${profile}/cache`,
});
// It takes authorities from the system alone, and the boat's own is no business of the system's.
kept.set_tls_errors_policy(WebKit.TLSErrorsPolicy.IGNORE);
const context = WebKit.WebContext.new_with_website_data_manager(kept);
context
  .get_cookie_manager()
  .set_persistent_storage(`${profile}/cookies`, WebKit.CookiePersistentStorage.TEXT);
context.set_automation_allowed(true);
context.connect("automation-started", (_, session) => {
  session.connect("create-web-view", () => {
    const settings = new WebKit.Settings({ enable_write_console_messages_to_stdout: true });
    const view = new WebKit.WebView({ web_context: context, is_controlled_by_automation: true, settings });
    const window = new Gtk.Window();
    window.add(view);
    window.show_all();
    return view;
  });
});
new GLib.MainLoop(null, false).run();
