/** The frame around every screen. */
import { Locker } from "../base/parts/icons";
import { find } from "../base/shell/pages";
import { href, route } from "../base/shell/route";
import { text } from "../base/text/text";
import { usesComputer, WayIn } from "../screens/wayin/wayin";
import { PaletteButton } from "./palette-button";
import { places } from "./places";

export function App() {
  const parts = route.value;
  const found = find(parts);
  const place = places.find((p) => p.path === parts[0]) ?? places[0];
  if (parts.length === 0 && usesComputer()) return <WayIn />;
  return (
    <>
      <header class="top">
        <a class="mark" href={href(place?.path ?? "")}>
          {text.app.name}
        </a>
        <PaletteButton />
        <a class="corner" href={href("locker")} aria-current={parts[0] === "locker" ? "page" : undefined}>
          <Locker />
          <span>{text.locker.title}</span>
        </a>
      </header>
      {found ? <found.page.show id={found.id} key={parts.join("/")} /> : place && <place.screen />}
      {!found && places.length > 1 && (
        <nav class="bar">
          {places.map((p) => (
            <a key={p.path} href={href(p.path)} aria-current={p === place ? "page" : undefined}>
              <p.icon />
              {p.name}
            </a>
          ))}
        </nav>
      )}
    </>
  );
}
