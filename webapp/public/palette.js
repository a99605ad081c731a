// Runs before the first paint, so that no white page flashes at night.
(() => {
  let chosen = null;
  try {
    chosen = localStorage.getItem("palette");
  } catch {
    // No storage: the phone's own preference decides.
  }
  const grounds = { day: "#f4efe1", dusk: "#000000", night: "#000000" };
  if (!Object.hasOwn(grounds, chosen ?? ""))
    chosen = matchMedia("(prefers-color-scheme: dark)").matches ? "dusk" : "day";
  const root = document.documentElement;
  root.dataset.palette = chosen;
  root.style.backgroundColor = grounds[chosen];
  document.querySelector('meta[name="theme-color"]').content = grounds[chosen];
})();
