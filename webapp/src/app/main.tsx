import "../state/enrol/arrive";
import "../base/style/base.css";
import "../base/style/parts.css";
import "../base/style/frame.css";
import "../base/style/lock.css";
import "../base/style/place.css";
import "../base/style/told.css";
import "../base/style/quick.css";
import "../screens/lines/lines.css";
import "../screens/lines/told-over.css";
import "../screens/lines/refused.css";
import "../screens/lines/rods.css";
import "../screens/lines/dials.css";
import "../screens/lines/picture.css";
import "../base/style/pages.css";
import "../base/style/lists.css";
import "../base/style/tables.css";
import "../base/style/coming.css";
import "../base/style/print.css";
import "../screens/notes/notes.css";
import "../screens/notes/day/day.css";
import "../screens/notes/season/season.css";
import "../screens/pace/pace.css";
import "../screens/tide/tide.css";
import "../screens/lines/turn/turn.css";
import "../screens/fish/fish.css";
import "../screens/crew/crew.css";
import "../screens/crew/help/help.css";
import "../screens/lines/calibrate/calibrate.css";
import { render } from "preact";
import { desk } from "../base/desk/desk";
import { setAround } from "../base/parts/around";
import { find, setPages } from "../base/shell/pages";
import { keepPose } from "../base/shell/pose";
import { route } from "../base/shell/route";
import { text } from "../base/text/text";
import { App } from "./app";
import { AtFoot } from "./at-foot";
import { come, here } from "./come";
import { Notices } from "./notices";
import { Quick } from "./quick";
import { notes } from "./rooms";
import { routes } from "./routes";
import { answered, keepSpread, loadKept } from "./start";

keepPose();
setPages(routes);
setAround({ Notices, Quick, AtFoot });
document.documentElement.lang = text.language;

const painted = () => new Promise((done) => requestAnimationFrame(() => setTimeout(done)));

/** When there is nothing else to do, as far as the browser can tell. */
const idle = (act: () => void) =>
  "requestIdleCallback" in window ? requestIdleCallback(act) : setTimeout(act, 2000);

async function start(): Promise<void> {
  // What is aboard already costs nothing to start at once. What must come over the air waits for the first paint.
  const aboard = Boolean(navigator.serviceWorker?.controller);
  if (aboard) desk.start();
  const atLines = find(route.value) === undefined && [undefined, "lines"].includes(route.value[0]);
  // Elsewhere what is shown comes together with the frame around it: a file holds all rooms.
  const room = () => notes.load().catch(() => undefined);
  if (aboard && !atLines) room();
  await loadKept();
  render(<App />, document.getElementById("app") as HTMLElement);
  if (!aboard) await painted();
  keepSpread();
  await painted();
  // On another page than Lines nobody waits for it.
  if (aboard && atLines) await answered();
  come().catch(() => undefined);
  const { begin, goOffline } = await here;
  await begin();
  await painted();
  goOffline();
  // What is aboard is there before a tap wants it, such as the one that notes a fish.
  if (aboard) idle(room);
}

start();
