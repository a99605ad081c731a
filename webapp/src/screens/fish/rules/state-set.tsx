/** A set for a state of one's own: empty, and not to be gone by until it has been filled in. */
import { Pick } from "../../../base/parts/input/pick";
import { go } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { addStateSet } from "../../../state/rules/change";

const t = text.fish.rules;

/** Where striped bass are fished for on the Atlantic coast: members of its plan, from memory. Proper names. */
const states = [
  "Maine",
  "New Hampshire",
  "Massachusetts",
  "Rhode Island",
  "Connecticut",
  "New York",
  "New Jersey",
  "Pennsylvania",
  "Delaware",
  "Maryland",
  "District of Columbia",
  "Virginia",
  "North Carolina",
];

export const StateSet = () => (
  <Pick
    label={t.stateSet}
    value=""
    options={[{ id: "", name: t.chooseState }, ...states.map((name) => ({ id: name, name }))]}
    onPick={(state) => state && go("fish", "set", addStateSet(state))}
  />
);
