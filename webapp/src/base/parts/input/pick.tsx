/** One of many, by name: the phone's own list, which every thumb knows. */
import { useId } from "preact/hooks";

interface Props {
  label: string;
  options: { id: string; name: string }[];
  value: string;
  onPick: (id: string) => void;
}

export function Pick({ label, options, value, onPick }: Props) {
  const id = useId();
  return (
    <div class="pick">
      <label for={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onPick(event.currentTarget.value)}>
        {options.map((option) => (
          <option key={option.id} value={option.id}>
            {option.name}
          </option>
        ))}
      </select>
    </div>
  );
}
