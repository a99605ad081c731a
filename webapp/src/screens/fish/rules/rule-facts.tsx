/** A rule in words. */
import type { Date as DayOfYear, Rule } from "../../../base/desk/types/fish.gen";
import { Facts } from "../../../base/parts/facts";
import { locale } from "../../../base/text/locale";
import { fromDesk, text } from "../../../base/text/text";
import { lawful, numeral } from "../../../base/units/show";
import type { OwnRule } from "../../../state/rules/rules";

const t = text.fish.rules;

const format = new Intl.DateTimeFormat(locale, { day: "numeric", month: "short", timeZone: "UTC" });
const monthFormat = new Intl.DateTimeFormat(locale, { month: "long", timeZone: "UTC" });

/** “Jul 4”; in a leap year, so that every day is one. */
export const dayWords = ({ month, day }: DayOfYear): string => format.format(Date.UTC(2024, month - 1, day));

export const monthName = (month: number): string => monthFormat.format(Date.UTC(2024, month - 1, 1));

export const isAllYear = ({ from, to }: Pick<Rule, "from" | "to">): boolean =>
  from.month === 1 && from.day === 1 && to.month === 12 && to.day === 31;

export function sizeWords({ min, minKept, max, maxKept }: Rule): string {
  const low = min > 0 ? t.from2(lawful(min), minKept) : "";
  const high = max > 0 ? t.to2(lawful(max), maxKept) : "";
  return t.sizes(low, high);
}

const bagWords = ({ bags = [], noFishing }: Rule): string =>
  noFishing
    ? t.forbidden
    : bags.map(({ count, per }) => t.bags(numeral(count), per)).join(", ") || t.unlimited;

export function RuleFacts({ rule }: { rule: OwnRule }) {
  const f = t.facts;
  const facts: [string, string][] = [
    [f.size, sizeWords(rule)],
    [f.season, isAllYear(rule) ? t.allYear : t.days(dayWords(rule.from), dayWords(rule.to))],
    [f.bag, bagWords(rule)],
    [f.gear, fromDesk(rule.gear)],
    [f.valid, rule.validFrom],
    [f.validTo, rule.validTo],
    [f.checked, rule.checkedOn],
  ];
  return (
    <>
      <Facts of={facts.filter(([, value]) => value !== "")} />
      {rule.note && <p>{fromDesk(rule.note)}</p>}
      <p class="soft">
        {rule.own && t.own} {rule.source && text.fish.source(fromDesk(rule.source))}
      </p>
    </>
  );
}
