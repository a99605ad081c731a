/** The mark of what comes by itself from the boat's instruments: rings that spread from a point on the hull. */
export const Live = () => (
  <svg class="live" viewBox="0 0 20 14" aria-hidden="true">
    <path d="M2 3h16l-3 4H5z" />
    <path class="rings" d="M7 9.5q3 2 6 0M5 12q5 3 10 0" />
  </svg>
);
