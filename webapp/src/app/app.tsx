/** The frame around every screen. */
import { Boundary } from "../base/parts/boundary";
import { Locker } from "../base/parts/icons";
import { find } from "../base/shell/pages";
import { href, route } from "../base/shell/route";
import { locked } from "../base/shell/wet-lock";
import { text } from "../base/text/text";
import { UndoButton } from "./notices";
import { asking, OverboardBar, OverboardButton } from "./overboard";
import { PaletteButton } from "./palette-button";
import { places } from "./places";
import { locker } from "./rooms";
import { WetLockBar, WetLockButton } from "./wet-lock";

const WayIn = locker((room) => room.WayIn);

/** A screen and pointer that nobody takes to sea in a pocket, at the bare address. */
const usesComputer = (): boolean => matchMedia("(min-width: 900px) and (pointer: fine)").matches;

export function App() {
  const parts = route.value;
  const found = find(parts);
  const place = places.find((p) => p.path === parts[0]) ?? places[0];
  if (parts.length === 0 && usesComputer()) return <WayIn />;
  return (
    <div class={found ? "frame at-page" : "frame at-place"}>
      <header class="top">
        <OverboardButton />
        <div class="top-rest" inert={locked.value || asking.value}>
          <a class="mark" href={href(place?.path ?? "")}>
            <span class="mark-name">{text.app.name}</span>
            {place && (
              <span class="mark-icon" aria-hidden="true">
                <place.icon />
              </span>
            )}
          </a>
          <UndoButton />
          <PaletteButton />
          {!found && <WetLockButton />}
          <a class="corner" href={href("locker")} aria-current={parts[0] === "locker" ? "page" : undefined}>
            <Locker />
            <span>{text.locker.title}</span>
          </a>
        </div>
      </header>
      <OverboardBar />
      <div class="within" inert={locked.value}>
        <Boundary what={found ? text.notices.failed.page : (place?.name ?? "")} key={parts.join("/")}>
          {found ? <found.page.show id={found.id} /> : place && <place.screen />}
        </Boundary>
      </div>
      <WetLockBar />
      {!found && (
        <nav class="bar" inert={locked.value}>
          {places.map((p) => (
            <a key={p.path} href={href(p.path)} aria-current={p === place ? "page" : undefined}>
              <p.icon />
              <span>{p.name}</span>
            </a>
          ))}
        </nav>
      )}
    </div>
  );
}
