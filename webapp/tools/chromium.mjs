// The browser that tests and figures run in: $CHROMIUM, or Debian's.
export const chromiumPath = process.env.CHROMIUM ?? "/usr/bin/chromium";
