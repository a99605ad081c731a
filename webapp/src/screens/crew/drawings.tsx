/** The drawings of the briefing, made for this app on a sheet of 320 by 130. They say nothing that the words do not. */
import type { ComponentChildren } from "preact";
import type { PageName } from "../../base/text/en/crew";

/** Somebody standing with their feet here, the arms as told from the shoulder. */
const someone = (x: number, y: number, arms: string) => (
  <>
    <circle class="full" cx={x} cy={y - 62} r="8" />
    <path d={`M${x} ${y - 52}v28l-9 24M${x} ${y - 24}l9 24M${x} ${y - 46}${arms}`} />
  </>
);

/** Seen from above, bow to the right. */
const fromAbove = <path d="M70 30h130c52 0 84 20 104 35c-20 15-52 35-104 35H70z" />;

/** Seen from the side, bow to the right, with the sea. */
const fromTheSide = (
  <path d="M60 84h176l44-14c-6 26-20 40-38 40H80c-12 0-18-10-20-26zM4 112c14-8 26-8 40 0s26 8 40 0s26-8 40 0s26 8 40 0s26-8 40 0s26 8 40 0s26-8 40 0" />
);

const never = (x: number, y: number, r: number) => (
  <path class="never" d={`M${x - r} ${y - r}l${2 * r} ${2 * r}M${x + r} ${y - r}l${-2 * r} ${2 * r}`} />
);

const hook = (x: number, y: number) => `M${x} ${y}v26a13 13 0 0 1-26 0v-6l8 6`;

/** An open hand from its palm, fingers up. */
const hand =
  "M60 118V92L44 74c-4-5 3-10 7-6l11 11V38c0-7 9-7 9 0v-9c0-7 10-7 10 0v7c0-7 10-7 10 0v6c0-6 9-6 9 1v46c0 8-4 12-6 17v11z";

export const drawings: { [P in PageName]: ComponentChildren } = {
  master: (
    <>
      {fromTheSide}
      {someone(150, 84, "l18-20M150 38l-16 16")}
      <path d="M168 8v10M174 10v9M162 11v8M180 84V60h16M140 20h20" />
    </>
  ),
  wire: (
    <>
      <path d={hand} />
      <path class="wire" d="M0 66h52c8-14 48-18 50 0s-44 14-50 0M102 66h218" />
      {never(78, 66, 50)}
      <circle cx="250" cy="100" r="22" />
      <circle cx="250" cy="100" r="8" />
      <path class="wire" d="M250 78C280 76 300 70 320 62" />
    </>
  ),
  hooks: (
    <>
      <path class="pale" d="M20 60c40-34 110-34 160 0c-50 34-120 34-160 0z" />
      <circle cx="34" cy="60" r="5" />
      <path d="M180 60h14" />
      <path class="wire" d={hook(206, 62)} />
      <circle cx="200" cy="60" r="6" />
      <path d="M34 60L0 40" />
      {someone(276, 124, "l-26-10M276 78l14 18")}
      <path class="dash" d="M226 20v100" />
    </>
  ),
  place: (
    <>
      {fromAbove}
      <path class="pale" d="M72 32h40v66H72z" />
      <path class="wire" d="M72 36L0 20M72 94L0 110" />
      <path d="M92 36L66 32M92 94l-26 4" />
      <circle class="full" cx="92" cy="65" r="9" />
      <circle class="full" cx="160" cy="48" r="9" />
      <circle class="full" cx="160" cy="82" r="9" />
      <circle class="full" cx="220" cy="65" r="9" />
      <path d="M232 50v30" />
      {never(128, 20, 10)}
      {never(128, 112, 10)}
    </>
  ),
  helm: (
    <>
      <path d="M180 42h56c26 0 46 12 60 23c-14 11-34 23-60 23h-56z" />
      <path d="M300 65h18l-9-8M318 65l-9 8" />
      <path class="wire" d="M180 56H0M180 74H0" />
      <circle class="full" cx="224" cy="65" r="8" />
      <path d="M236 54v22" />
      <path class="dash" d="M250 34c20-14 36-18 56-18" />
      <path class="dash" d="M250 96c20 14 36 18 56 18" />
      {never(284, 20, 9)}
      {never(284, 110, 9)}
    </>
  ),
  lineOut: (
    <>
      <circle cx="110" cy="74" r="44" />
      <circle class="pale" cx="110" cy="74" r="28" />
      <circle cx="110" cy="74" r="7" />
      <path d="M154 74h26v24" />
      <path class="wire" d="M110 46H320" />
      <path d="M290 34l14 12l-14 12" />
      <path class="full" d="M20 6c30-4 60 4 92 30c8 8-2 16-12 10C72 32 46 26 20 28z" />
      <path class="wire" d="M220 110c14-24 34-20 30-6s-24 12-18-4s30-10 34 10" />
      {never(244, 102, 20)}
    </>
  ),
  leash: (
    <>
      <path d="M0 112h320M40 112V72h22v40" />
      <path class="wire" d="M50 84L250 14" />
      <circle cx="86" cy="76" r="13" />
      <path d="M30 92l20-8" />
      <path class="rope" d="M74 76c10 40 50 6 66 24c8 10 20 12 30 12" />
      <path d="M160 112v-8h24v8M154 100h36" />
      {someone(276, 112, "l-18 18M276 66l18 18")}
      <path class="thick" d="M262 88h28" />
    </>
  ),
  jacket: (
    <>
      <circle class="full" cx="160" cy="22" r="16" />
      <path class="pale" d="M128 48c20-10 24 10 32 10s12-20 32-10l6 66h-76z" />
      <path d="M160 58v56M122 84h76M126 48L96 92M194 48l30 44" />
      <path class="full" d="M150 78h20v12h-20z" />
    </>
  ),
  cutoff: (
    <>
      <path d="M10 122h300M200 122V70h70v52M232 70l12-24M226 48l36-4" />
      {someone(120, 122, "l50-12M120 76l44 6")}
      <path class="rope" d="M126 100c14 16 22-10 32 4s18-8 26 2s14-2 22 0" />
      <path class="full" d="M206 96h18v18h-18z" />
    </>
  ),
  radio: (
    <>
      <path d="M30 34h150v80H30z" />
      <path class="pale" d="M44 48h80v36H44z" />
      <text x="84" y="77" text-anchor="middle">
        16
      </text>
      <circle cx="152" cy="64" r="12" />
      <path d="M50 100h60M144 34V4" />
      <path class="full" d="M146 94h14v10h-14z" />
      <path class="rope" d="M180 90c20 30 30-20 44 8" />
      <path d="M226 40h44c8 0 8 6 8 12v44c0 10-8 16-18 16h-24c-10 0-16-6-16-16V46c0-4 2-6 6-6zM222 58h-8v20h8M236 56h28M236 66h28" />
    </>
  ),
  overboard: (
    <>
      <path d="M0 90h96l26-10c-4 22-12 32-24 32H0z" />
      {someone(60, 90, "l44 6M60 44l-14 18")}
      <circle class="full" cx="244" cy="86" r="10" />
      <path d="M232 106l-16-34M256 106l14-30" />
      <circle cx="176" cy="96" r="16" />
      <circle cx="176" cy="96" r="7" />
      <path d="M116 118c14-8 26-8 40 0s26 8 40 0s26-8 40 0s26 8 40 0s26-8 40 0" />
      <path class="dash" d="M112 50L226 76" />
    </>
  ),
  hooked: (
    <>
      <path d={hand} />
      <path class="wire" d="M84 66v20a12 12 0 0 0 24 0V56M108 56c30-20 50-10 66-30" />
      <path class="thick" d="M138 26l24 32M160 26l-20 32" />
      <circle cx="134" cy="64" r="7" />
      <circle cx="166" cy="64" r="7" />
      <path d="M220 40h70v56h-70zM255 52v32M239 68h32" />
    </>
  ),
  cold: (
    <>
      <circle cx="60" cy="50" r="38" />
      <circle cx="160" cy="50" r="38" />
      <circle cx="260" cy="50" r="38" />
      <text x="60" y="59" text-anchor="middle">
        1
      </text>
      <text x="160" y="59" text-anchor="middle">
        10
      </text>
      <text x="260" y="59" text-anchor="middle">
        60
      </text>
      <path d="M98 50h24l-8-7M122 50l-8 7M198 50h24l-8-7M222 50l-8 7" />
      <path d="M4 112c14-8 26-8 40 0s26 8 40 0s26-8 40 0s26 8 40 0s26-8 40 0s26 8 40 0s26-8 40 0" />
    </>
  ),
  sun: (
    <>
      <circle class="pale" cx="60" cy="50" r="24" />
      <path d="M60 10v8M60 82v8M20 50h8M92 50h8M32 22l6 6M82 72l6 6M88 22l-6 6M38 72l-6 6" />
      <circle cx="170" cy="66" r="26" />
      <path class="full" d="M124 48h92l-18-8c-2-20-12-26-28-26s-26 6-28 26z" />
      <path class="full" d="M150 60h16v9h-16zM174 60h16v9h-16z" />
      <path d="M166 63h8M262 34h20v14l8 10v60h-36V58l8-10z" />
      <path class="pale" d="M255 76h34v40h-34z" />
    </>
  ),
};
