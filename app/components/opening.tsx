'use client';

import { type ReactNode, useState } from 'react';

/**
 * A view with its map, on the front page with the region in words around it. These stay while other views are looked at,
 * so that the map keeps its place under the reader's finger; whoever comes by the address of a view gets the view alone.
 */
export function Opening({
  front,
  below,
  alone,
  summary,
  children,
}: {
  /** What heads the front page and what stands beside its map; null for whoever asked for a view. */
  front: { name: ReactNode; words: ReactNode } | null;
  /** The headline of the view below that of a front page, and by itself with its summary. */
  below: ReactNode;
  alone: ReactNode;
  /** What follows the map of a front page. */
  summary: ReactNode;
  children: ReactNode;
}) {
  const [first] = useState(front);
  const shown = front ?? first;
  return (
    <div className={shown ? 'view-and-map front-page' : 'view-and-map'}>
      {shown?.name}
      <div className="view">
        {shown ? below : alone}
        {children}
        {shown ? summary : null}
      </div>
      {shown?.words}
    </div>
  );
}
