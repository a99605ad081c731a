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
