/** Puts an alarm off for ten minutes; it stays to be read. */
import { Act } from "../../../base/parts/notice";
import { text } from "../../../base/text/text";
import { alarmSettings, isSilent, type Kind, silence } from "../../../state/alarms/alarms";

export const Quiet = ({ kind }: { kind: Kind }) =>
  isSilent(kind) || !alarmSettings.value.sound ? null : (
    <Act onTap={() => silence(kind)}>{text.instruments.quiet}</Act>
  );
