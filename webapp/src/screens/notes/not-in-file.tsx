/** What a file of notes leaves out, said where it is saved. */
import { Warning } from "../../base/parts/icons";
import { text } from "../../base/text/text";

export const NotInFile = () => (
  <p class="notice">
    <span>
      <Warning /> {text.exchange.notInFile}
    </span>
  </p>
);
