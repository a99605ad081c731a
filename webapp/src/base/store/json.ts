/** Any stored data as JSON. Numbers that JSON has no way to write stay readable as words: "NaN". */
export const toJson = (data: unknown, space = 0): string =>
  JSON.stringify(
    data,
    (_, value: unknown) =>
      typeof value === "bigint" || (typeof value === "number" && !Number.isFinite(value))
        ? String(value)
        : value,
    space,
  );
