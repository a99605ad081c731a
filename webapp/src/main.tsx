import "./style/base.css";
import "./style/parts.css";
import "./style/lines.css";
import "./style/pages.css";
import { render } from "preact";
import { desk } from "./desk/desk";
import { screens } from "./screens";
import { App } from "./shell/app";
import { goOffline } from "./shell/offline";
import { setScreens } from "./shell/screens";
import { begin, loadKept } from "./start";

setScreens(screens);

loadKept().then(() => {
  render(<App />, document.getElementById("app") as HTMLElement);
  // The shell is painted before the calculator, much the largest file, is even asked for.
  requestAnimationFrame(() =>
    setTimeout(() => {
      desk.start();
      begin();
      goOffline();
    }),
  );
});
