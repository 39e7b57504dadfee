import { size } from '@/app/messages/en/format';
import type { StoredDraft } from '@/db/repositories/release-drafts';
import { DataTable } from '../../../components/data-table';
import { releaseTexts as texts } from '../../../messages/releases';

/** The files that the release would have, to look into before it is published. */
export function DraftFiles({ draft: { id, files } }: { draft: StoredDraft }) {
  return (
    <section>
      <h2>{texts.files}</h2>
      <details>
        <summary>{texts.files}</summary>
        <DataTable
          caption={texts.files}
          columns={texts.filesColumns}
          rows={files.map(({ name, bytes }) => ({
            key: name,
            cells: [
              <a key="name" href={`/staff/releases/drafts/${id}/files/${encodeURIComponent(name)}`}>
                {name}
              </a>,
              size(bytes),
            ],
          }))}
        />
      </details>
    </section>
  );
}
