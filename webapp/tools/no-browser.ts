/** What every page has and the tests of the modules behind it, which run without a browser, have not. */
globalThis.location ??= { hash: "" } as Location;
globalThis.addEventListener ??= () => undefined;
