import { count, interval, percent } from '@/app/messages/en/format';
import type { PartCount } from '@/db/repositories/pair-counts';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import type { Assay, Design } from '@/lib/vocabulary/terms';
import { DataTable } from '../components/data-table';
import { mapTexts as texts } from '../messages/map';
import type { PrivateMap } from './read-private-map';

const KINDS = ['design', 'assay', 'crop', 'funder'] as const;

/** The chosen place and period by design, assay, crop and funder: never pooled silently. */
export function TakenApart({ map }: { map: PrivateMap }) {
  return (
    <section aria-labelledby="apart">
      <h2 id="apart">{texts.split}</h2>
      <p>{texts.splitText}</p>
      <div className="staff-columns">
        {KINDS.map((kind) => (
          <DataTable
            key={kind}
            caption={texts.splits[kind]}
            columns={[texts.splits[kind], ...texts.splitColumns.slice(1)]}
            rows={map.parts
              .filter((part) => part.of === kind)
              .map((part) => ({ ...part, words: wordsOf(part) }))
              .sort((a, b) => (a.words < b.words ? -1 : 1))
              .map(({ words, tested, resistant }) => ({
                key: words,
                cells: [
                  words,
                  count(tested),
                  count(resistant),
                  percent(resistant / tested),
                  interval(wilsonInterval(resistant, tested)),
                ],
              }))}
          />
        ))}
      </div>
    </section>
  );
}

function wordsOf({ of, name }: PartCount): string {
  if (of === 'design') return texts.designs[name as Design];
  if (of === 'assay') return texts.assays[name as Assay];
  return name ?? texts.notNamed;
}
