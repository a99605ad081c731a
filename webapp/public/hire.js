// Where all of the app is on this phone already, its calculator begins before anything else of it is read.
(() => {
  if (!navigator.serviceWorker?.controller) return;
  try {
    const worker = new Worker("/worker.js");
    const said = [];
    worker.onmessage = ({ data }) => said.push(data);
    worker.onerror = ({ message }) => said.push({ died: message ?? "" });
    globalThis.hired = { worker, said };
  } catch {
    // It is hired as ever when it is needed.
  }
})();
