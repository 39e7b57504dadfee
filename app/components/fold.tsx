import type { ReactNode } from 'react';

/** A part of a long section: folded on a phone, under its name in the open where there is room and on paper. */
export function Fold({ name, children }: { name: string; children: ReactNode }) {
  return (
    <div className="fold">
      <h3>{name}</h3>
      <details>
        <summary>{name}</summary>
        {children}
      </details>
    </div>
  );
}
