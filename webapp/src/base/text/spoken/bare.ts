/** A table without what every object has by itself, such as `constructor`: a key from outside finds only what was put in. */
export function bare<T extends object>(table: T): T {
  for (const value of Object.values(table))
    if (typeof value === "object" && value !== null && !Array.isArray(value)) bare(value);
  return Object.setPrototypeOf(table, null);
}
