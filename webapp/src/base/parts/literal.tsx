/** What is read or typed letter by letter: it breaks nowhere but where one pauses. */

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

/** Words in which something stands that is typed in a terminal: none of its flags breaks at its dashes. */
export const Typed = ({ children }: { children: string }) => (
  <>
    {children.split(/(--[a-z]+)/).map((part) =>
      part.startsWith("--") ? (
        <code key={part} class="flag">
          {part}
        </code>
      ) : (
        part
      ),
    )}
  </>
);
