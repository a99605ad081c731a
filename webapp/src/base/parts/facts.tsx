/** Names and values, a line each. */
export function Facts({ of }: { of: readonly (readonly [name: string, value: string])[] }) {
  return (
    <dl class="facts">
      {of.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
