/** A file out of the app: shared where the phone can, else saved by the browser. */

/** False: the person thought better of it. */
export async function handOver(
  name: string,
  content: string | Uint8Array<ArrayBuffer>,
  type = "application/json",
): Promise<boolean> {
  const file = new File([content], name, { type });
  if (navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file] });
      return true;
    } catch (fault) {
      if ((fault as Error).name === "AbortError") return false;
      // Some promise to share what they then refuse.
    }
  }
  const url = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  // The browser reads it some time after the tap.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
  return true;
}
