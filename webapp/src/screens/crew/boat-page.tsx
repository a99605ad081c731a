/** The boat's own particulars, typed once. */
import { Facts } from "../../base/parts/facts";
import { useLate } from "../../base/parts/input/late";
import { LimitedStepper } from "../../base/parts/input/limited";
import { TextField } from "../../base/parts/input/text-field";
import { Page } from "../../base/parts/page";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { amount } from "../../base/units/show";
import { type Boat, boat, setBoat } from "../../state/crew/boat";
import { isMmsi } from "../../state/crew/mayday";
import { mayChange } from "../../state/crew/role";
import { useRunningTrip } from "../../state/crew/use-trip";

const t = text.crew.boat;

/** m; where the length of an open boat may begin. */
const twentyFeet = 6.096;

type Typed = { [K in keyof Boat]: Boat[K] extends string ? K : never }[keyof Boat];

export function BoatPage() {
  const ready = useRunningTrip();
  return (
    <Page title={t.title} back={href("crew")}>
      <p>{t.what}</p>
      {ready && (mayChange() ? <Form /> : <ToRead />)}
    </Page>
  );
}

function Form() {
  const now = boat.value;
  return (
    <div class="form">
      <Words of="name" label={t.name} />
      <Words of="registration" label={t.registration} hint={t.registrationHint} />
      <Words of="callSign" label={t.callSign} />
      <Words
        of="mmsi"
        label={t.mmsi}
        hint={t.mmsiHint}
        problem={now.mmsi === "" || isMmsi(now.mmsi) ? undefined : t.mmsiWrong}
      />
      <Amount of="length" label={t.length} quantity="craft" limits={{ min: 0, max: 60 }} start={twentyFeet} />
      <Words of="type" label={t.type} hint={t.typeHint} />
      <Words of="hull" label={t.hull} hint={t.hullHint} />
      <Amount of="people" label={t.people} quantity="count" limits={{ min: 0, max: 30 }} start={1} />
      <p class="soft">{t.peopleHint}</p>
      <Words of="ground" label={t.ground} />
      <Words of="phone" label={t.phone} />
      <Words of="safety" label={t.safety} hint={t.safetyHint} long />
    </div>
  );
}

/** All that was told of it, for who may not change it. */
function ToRead() {
  const { name, registration, callSign, mmsi, length, type, hull, ground, phone, safety } = boat.value;
  const all: [string, string][] = [
    [t.registration, registration],
    [t.callSign, callSign],
    [t.mmsi, mmsi],
    [t.length, length > 0 ? amount("craft", length) : ""],
    [t.type, type],
    [t.hull, hull],
    [t.ground, ground],
    [t.phone, phone],
    [t.safety, safety],
  ];
  return (
    <>
      <p class="large-words">{name || t.unset}</p>
      <Facts of={all.filter(([, told]) => told)} />
    </>
  );
}

interface WordsProps {
  of: Typed;
  label: string;
  hint?: string;
  problem?: string | undefined;
  long?: boolean;
}

const Words = ({ of, ...rest }: WordsProps) => (
  <TextField {...rest} value={boat.value[of]} onText={(said) => setBoat({ [of]: said.trim() })} />
);

interface AmountProps {
  of: "length" | "people";
  label: string;
  quantity: "craft" | "count";
  limits: { min: number; max: number };
  /** Where stepping up begins while it is not told. */
  start: number;
}

function Amount({ of, start, ...rest }: AmountProps) {
  const late = useLate(boat.value[of], (si) => setBoat({ [of]: si }));
  return (
    <LimitedStepper
      {...rest}
      si={late.value}
      zero={t.unset}
      onChange={(si) => late.change(late.value === 0 && si > 0 && si < start ? start : si)}
    />
  );
}
