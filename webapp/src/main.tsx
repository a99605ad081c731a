import "./aboard/arrive";
import "./style/base.css";
import "./style/parts.css";
import "./style/lines.css";
import "./style/pages.css";
import "./style/notes.css";
import "./style/pace.css";
import "./style/turn.css";
import "./style/fish.css";
import "./style/crew.css";
import "./style/learn.css";
import { render } from "preact";
import { desk } from "./desk/desk";
import { screens } from "./screens";
import { App } from "./shell/app";
import { goOffline } from "./shell/offline";
import { setScreens } from "./shell/screens";
import { begin, loadKept } from "./start";
import { text } from "./text/text";

setScreens(screens);
document.documentElement.lang = text.language;

const painted = () => new Promise((done) => requestAnimationFrame(() => setTimeout(done)));

async function start(): Promise<void> {
  // What is aboard already costs nothing to start at once. What must come over the air waits for the first paint.
  const aboard = Boolean(navigator.serviceWorker?.controller);
  if (aboard) desk.start();
  await loadKept();
  render(<App />, document.getElementById("app") as HTMLElement);
  if (!aboard) await painted();
  begin();
  await painted();
  goOffline();
}

start();
