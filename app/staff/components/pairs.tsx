import type { ReactNode } from 'react';

/** What is said of one thing: a name and what it is, line by line. */
export function Pairs({ pairs }: { pairs: readonly (readonly [name: string, is: ReactNode])[] }) {
  return (
    <dl className="staff-pairs">
      {pairs.map(([name, is]) => (
        <div key={name} className="staff-pair">
          <dt>{name}</dt>
          <dd>{is}</dd>
        </div>
      ))}
    </dl>
  );
}
