/** The fingerprint of the boat's certificate, in rows that the eye can keep its place in. */
export function Fingerprint({ of }: { of: string }) {
  const rows = of.match(/(?:[0-9A-F]{2}:?){1,8}/g) ?? [of];
  return (
    <p class="fingerprint">
      {rows.map((row) => (
        <span key={row}>{row.replaceAll(":", " ").trim()} </span>
      ))}
    </p>
  );
}
