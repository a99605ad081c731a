/** Most documents that a notice names. */
const most = 3;

/** Documents in words; how many more there are than it names is told. */
export function named(
  names: readonly string[],
  words: { readonly [name: string]: string },
  other: string,
  more: (others: number) => string,
): string {
  const known = names.flatMap((name) => words[name] ?? []).slice(0, most);
  if (known.length === 0) return other;
  const others = names.length - known.length;
  return [...known, ...(others > 0 ? [more(others)] : [])].join("; ");
}
