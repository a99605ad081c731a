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
export const Pace = draw(<path d="M2 17c3-5 5-5 8 0s5 5 8 0l4-4M3 8h12M11 4l4 4-4 4" />);
export const Hold = draw(<path d="M5 9h14M5 15h14" />);
export const Undo = draw(<path d="M8 4L3 9l5 5M3 9h11a6 6 0 0 1 0 12h-3" />);
export const WetLock = draw(<path d="M5 11h14v10H5zM8 11V8a4 4 0 0 1 8 0v3M12 15v2" />);
export const Overboard = draw(
  <path d="M12 10a2.5 2.5 0 1 0 0-5a2.5 2.5 0 1 0 0 5M7 13l5-2 5 2M12 11v4M2 17c2-2 4-2 5 0s3 2 5 0 3-2 5 0 3 2 5 0M2 22c2-2 4-2 5 0s3 2 5 0 3-2 5 0 3 2 5 0" />,
);
export const Notes = draw(<path d="M5 3h14v18H5zM9 8h6M9 12h6M9 16h3" />);
export const Hook = draw(<path d="M15 6v8a5 5 0 0 1-10 0v-2l3 2M15 6a1.5 1.5 0 1 0 0-3a1.5 1.5 0 1 0 0 3" />);
export const Touch = draw(
  <path d="M4 4c5 2 7 6 8 12M12 16l-3-1M12 16l2-3M2 20h20M6 23l2-3M12 23l2-3M18 23l2-3" />,
);
export const Fish = draw(
  <path d="M2 12c4-6 11-6 15 0c-4 6-11 6-15 0M17 12l5-5v10zM7 11v.5M11 9c1 2 1 4 0 6" />,
);
export const Camera = draw(<path d="M3 7h5l2-3h4l2 3h5v13H3zM12 16.5a3.5 3.5 0 1 0 0-7a3.5 3.5 0 1 0 0 7" />);
export const Crew = draw(
  <path d="M8.5 10a3 3 0 1 0 0-6a3 3 0 1 0 0 6M2 21c0-5 2.5-7.5 6.5-7.5s6.5 2.5 6.5 7.5M16 11a2.5 2.5 0 1 0 0-5M18 14.5c3 .5 4 3 4 6.5" />,
);
export const Speaker = draw(<path d="M3 9v6h4l6 5V4L7 9zM17 9c1.5 1.5 1.5 4.5 0 6M20 6c3 3 3 9 0 12" />);
export const Printer = draw(<path d="M7 8V3h10v5M3 17V8h18v9h-4M7 13h10v8H7z" />);
export const Sent = draw(<path d="M12 15V4M7 9l5-5 5 5M4 14v6h16v-6" />);
