/** Drawings of what hands do with a fish. Lines only, in the colours of the palette. */
import type { ComponentChildren } from "preact";

interface DrawingProps {
  words: string;
  children: ComponentChildren;
}

const Drawing = ({ words, children }: DrawingProps) => (
  <svg class="drawing" viewBox="0 0 340 140" role="img" aria-label={words}>
    {children}
  </svg>
);

/** A striped bass of 290 by 100, head to the left. */
const FishShape = ({ squeezed }: { squeezed?: boolean }) => (
  <g>
    <path class="draw-fin" d="M108 27L126 8L158 24M168 26L180 12L208 37M176 88L190 103L210 79" />
    <path
      class="draw-body"
      d={`M12 58C40 34 90 22 140 24C190 26 222 44 246 51${
        squeezed ? "L290 50Q293 56 290 62L246 63" : "L288 28Q274 57 288 86L246 63"
      }C222 74 190 90 140 90C90 92 40 80 12 58Z`}
    />
    <path class="draw-thin" d="M84 42H212M82 51H240M82 60H242M84 69H222M90 78H194" />
    <path d="M70 34C84 48 84 68 70 84M12 58L34 62M86 64L112 74L88 78" />
    <circle class="draw-dot" cx="46" cy="50" r="4" />
  </g>
);

const surface = "M0 72Q17 66 34 72T68 72T102 72T136 72T170 72T204 72T238 72T272 72T306 72T340 72";

const Water = ({ from }: { from: number }) => (
  <path class="draw-water" transform={`translate(0 ${from - 72})`} d={`${surface}V240H0Z`} />
);

/** Beside the boat, head first into the net. */
export const Landing = ({ words }: { words: string }) => (
  <Drawing words={words}>
    <Water from={58} />
    <g transform="translate(206 62) scale(-0.66 0.66)">
      <FishShape />
    </g>
    <path d="M200 100L262 26" />
    <path class="draw-thick" d="M340 40L300 34L250 20" />
    <path class="draw-boat" d="M340 48H250Q256 100 292 118H340Z" />
    <path class="draw-thick" d="M272 56L218 92" />
    <path d="M218 92Q170 84 152 112Q168 144 222 130Q240 112 218 92M164 98L226 122M158 120L210 88M182 136L234 102" />
    <path class="draw-thick" d="M118 30H196M184 20L198 30L184 40" />
  </Drawing>
);

/** On the ruler. */
export const Measuring = ({ words }: { words: string }) => (
  <Drawing words={words}>
    <g transform="translate(12 -4)">
      <FishShape squeezed />
    </g>
    <path class="draw-boat" d="M24 108H330V130H24Z" />
    <path class="draw-thick" d="M24 22V130" />
    <path
      class="draw-thin"
      d={Array.from({ length: 15 }, (_, i) => `M${24 + 20 * i} 108v${i % 5 === 0 ? 14 : 8}`).join("")}
    />
    <path class="draw-dashed" d="M304 24V108" />
    <path class="draw-thick" d="M34 98H296M44 92L34 98L44 104M286 92L296 98L286 104" />
    <path class="draw-thick" d="M276 22L280 40M276 92L280 74" />
    {[
      [42, 36],
      [254, 28],
      [170, 120],
    ].map(([x, y], i) => (
      <g key={i}>
        <circle class="draw-label" cx={x} cy={y} r="13" />
        <text x={x} y={(y ?? 0) + 6} text-anchor="middle">
          {i + 1}
        </text>
      </g>
    ))}
  </Drawing>
);

/** Where the knife goes. */
export const Bleeding = ({ words }: { words: string }) => (
  <Drawing words={words}>
    <g transform="translate(-8 -44) scale(1.7)">
      <FishShape />
    </g>
    <path class="draw-cut" d="M112 108Q130 84 132 56" />
    <path class="draw-knife" d="M138 126L122 118L196 84Q206 92 198 100ZM198 86L250 62L258 78L204 98Z" />
  </Drawing>
);

/** Covered in the box. */
export const Slush = ({ words }: { words: string }) => (
  <Drawing words={words}>
    <path class="draw-boat" d="M14 22H326V134H14Z" />
    <path class="draw-water" d="M26 40H314V124H26Z" />
    <g transform="translate(34 40) scale(0.92 0.72)">
      <FishShape />
    </g>
    <path
      class="draw-ice"
      d={[36, 64, 98, 132, 166, 200, 234, 268, 296]
        .flatMap((x, i) => [
          `M${x} ${46 + ((i * 7) % 10)}l9 3l-3 9l-9-3z`,
          `M${x - 4} ${104 + ((i * 5) % 8)}l9-2l2 9l-9 2z`,
        ])
        .join("")}
    />
    <path class="draw-thick" d="M6 16H334" />
  </Drawing>
);

/** In the water, held level. */
export const Releasing = ({ words }: { words: string }) => (
  <Drawing words={words}>
    <Water from={26} />
    <g transform="translate(38 30) scale(0.92)">
      <FishShape />
    </g>
    <path
      class="draw-hand"
      d="M152 4L146 92M176 4L172 96M146 92Q120 104 124 116Q160 126 190 112Q196 104 172 96"
    />
    <path class="draw-hand" d="M276 4L262 66M296 4L284 70M262 66Q254 92 264 98Q282 100 288 92L284 70" />
    <path
      class="draw-thick"
      d="M4 60H34M24 52L36 60L24 68M4 96H44M34 88L46 96L34 104M4 128H64M54 120L66 128L54 136"
    />
  </Drawing>
);
