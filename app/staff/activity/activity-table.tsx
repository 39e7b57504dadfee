import type { ActivityLine } from '@/db/repositories/activity';
import { DataTable } from '../components/data-table';
import { activityTexts as texts } from '../messages/activity';

/** Lines of the log. */
export function ActivityTable({ lines }: { lines: readonly ActivityLine[] }) {
  if (lines.length === 0) return <p>{texts.none}</p>;
  return (
    <DataTable
      caption={texts.caption(lines.length)}
      columns={texts.columns}
      rows={lines.map(({ id, at, by, what, about }) => ({
        key: id,
        cells: [at.replace('T', ' ').replace('Z', ''), by || texts.nobody, what, about],
      }))}
    />
  );
}
