/**
 * What comes when it is first shown: from what this phone keeps, and over the network only on the very first visit, before
 * all of it is kept. What does not come says so, with the way to try again.
 */
import { type ReadonlySignal, signal } from "@preact/signals";
import type { ComponentType } from "preact";
import { useEffect } from "preact/hooks";
import { text } from "../../text/text";
import { Act, Notice } from "../notice";

export interface Later<Module> {
  /** A component of the module. */
  <Props extends object>(pick: (module: Module) => ComponentType<Props>): ComponentType<Props>;
  /** The module, once it is here. */
  here: ReadonlySignal<Module | undefined>;
  /** It did not come, when it was last asked for. */
  failed: ReadonlySignal<boolean>;
  load(): Promise<Module>;
}

export function later<Module>(get: () => Promise<Module>): Later<Module> {
  const here = signal<Module>();
  const failed = signal(false);
  let coming: Promise<Module> | undefined;
  /** What did not come is asked for again by whoever wants it next. */
  const load = () => {
    coming ??= get().then(
      (module) => {
        here.value = module;
        return module;
      },
      (fault) => {
        coming = undefined;
        failed.value = true;
        throw fault;
      },
    );
    return coming;
  };
  const show = <Props extends object>(pick: (module: Module) => ComponentType<Props>) => {
    let Component: ComponentType<Props> | undefined;
    return (props: Props) => {
      useEffect(() => {
        load().catch(() => undefined);
      }, []);
      if (!Component && here.value) Component = pick(here.value);
      if (Component) return <Component {...props} />;
      return failed.value ? <NotHere /> : null;
    };
  };
  return Object.assign(show, { here, failed, load });
}

/** A browser may not ask again for what once did not come: the whole app is loaded anew, where it was. */
export function NotHere() {
  const t = text.notices.notLoaded;
  return (
    <Notice alarm actions={<Act onTap={() => location.reload()}>{t.again}</Act>}>
      {t.what}
    </Notice>
  );
}
