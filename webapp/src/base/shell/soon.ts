/** After what waits already, as taps and paint do; not a timer, since browsers let these wait longer. */
export function soon(): Promise<void> {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      done();
    };
    port2.postMessage(undefined);
  });
}

/** What waits between parts of long work: nothing as a rule, and once it has gone on for long all that waits for it. */
export function breather(): () => Promise<void> {
  /** So long at a time, ms, that no tap waits for it. */
  const longest = 10;
  let since = performance.now();
  return async () => {
    if (performance.now() - since < longest) return;
    await soon();
    since = performance.now();
  };
}

/** So long at most a page that is not drawn, as one in the background, is waited for, ms. */
const undrawn = 500;

/** After what is shown by now has been drawn. */
export async function painted(): Promise<void> {
  await new Promise<void>((done) => {
    requestAnimationFrame(() => done());
    setTimeout(done, undrawn);
  });
  await soon();
}
