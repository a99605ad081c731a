/** Small marks, drawn for this app on a grid of 24. */
import type { ComponentChildren } from "preact";

const draw = (children: ComponentChildren) => () => (
  <svg class="icon" viewBox="0 0 24 24" aria-hidden="true">
    {children}
  </svg>
);

export const Check = draw(<path d="M4 13l5 6L20 5" />);
export const Up = draw(<path d="M12 21V5M5 12l7-8 7 8" />);
export const Down = draw(<path d="M12 3v16M5 12l7 8 7-8" />);
export const Grounded = draw(<path d="M12 2v11M6 8l6 6 6-6M2 18h20M5 22l3-4M11 22l3-4M17 22l3-4" />);
export const Warning = draw(<path d="M12 3L2 21h20zM12 10v5M12 18v.5" />);
export const Question = draw(<path d="M8 8a4 4 0 1 1 5.5 4c-1 .6-1.5 1.3-1.5 2.5M12 18.5v.5" />);
export const Cross = draw(<path d="M5 5l14 14M19 5L5 19" />);
export const Plus = draw(<path d="M12 4v16M4 12h16" />);
export const Minus = draw(<path d="M4 12h16" />);
export const Back = draw(<path d="M15 4l-8 8 8 8" />);
export const On = draw(<path d="M9 4l8 8-8 8" />);
export const Locker = draw(<path d="M3 6h18v14H3zM3 12h18M10 12v3h4v-3" />);
export const Day = draw(<path d="M7 17a5 5 0 0 1 10 0M2 17h20M12 4v3M4 9l2 2M20 9l-2 2M5 21h14" />);
export const Dusk = draw(<path d="M2 14h20M6 18h12M10 22h4M8 14a4 4 0 0 1 8 0" />);
export const Night = draw(<path d="M15 3a9 9 0 1 0 6 13A8 8 0 0 1 15 3z" />);
export const Lines = draw(<path d="M21 5C15 13 9 17 2 18M21 5v4M2 18l2-2M2 18l3 1" />);
export const Keypad = draw(<path d="M4 17v3h3L19 8l-3-3zM14 7l3 3" />);
