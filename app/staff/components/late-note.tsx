import type { StaffDatabase } from '@/db/clients/staff';
import { type LateChanges, lateChanges } from '@/db/repositories/late-changes';
import { closedSeasons } from '@/db/repositories/programme';
import { countyName } from '@/lib/geography/atlas';
import type { Waiting } from '@/lib/release/revision/types';
import { lateTexts as texts } from '../messages/late';
import { pairWords } from '../messages/pairs';

/** The samples that a change is counted with: by the batch rule they enter a release together or wait. */
export type LateUnit = Pick<Waiting, 'county' | 'season' | 'species' | 'group'>;

/** Whether changes of a county, season, weed and group wait for a later release, in a sentence; nothing where none do. */
export async function LateNote(props: {
  db: StaffDatabase;
  unit: LateUnit;
  /** ISO instant in UTC of the last change, to the microsecond; null where nothing was changed, or it is not known. */
  changedAt: string | null;
}) {
  const { db, unit, changedAt } = props;
  const [late, closed] = await Promise.all([lateChanges(db), closedSeasons(db)]);
  if (!late || !closed.includes(unit.season)) return null;
  const waiting = late.waiting.find(
    ({ county, season, species, group }) =>
      county === unit.county && season === unit.season && species === unit.species && group === unit.group,
  );
  const isNewer = changedAt !== null && changedAt > late.madeAt;
  if (!waiting && !isNewer) return null;
  return (
    <p>
      {waiting ? texts.waits(unitWords(unit), made(late), waiting.why) : texts.newer(made(late))}
      {late.draft !== null ? (
        <>
          {' '}
          <a href={`/staff/releases/drafts/${late.draft}`}>{texts.more}</a>
        </>
      ) : null}
    </p>
  );
}

function made({ number, isReleased }: LateChanges): string {
  return texts.made(number, isReleased);
}

function unitWords({ county, season, ...pair }: LateUnit): string {
  return `${pairWords(pair)}, ${countyName(county) ?? county}, ${season}`;
}
