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
