/** When to give up on what does not come, even on a busy machine; nothing is measured by it. */
import { vi } from "vitest";

vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const { waitFor } = vi;
vi.waitFor = (so, options) => waitFor(so, options ?? { timeout: 60_000 });
