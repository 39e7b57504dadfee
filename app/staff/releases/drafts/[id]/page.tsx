import { latestJob } from '@/db/repositories/jobs';
import { asksTwoPersons, readDraft } from '@/db/repositories/release-drafts';
import type { FullDraftReport } from '@/lib/jobs/draft-report';
import { Sorry } from '../../../components/sorry';
import { staffPage } from '../../../guard/staff-page';
import { releaseTexts as texts } from '../../../messages/releases';
import { instantWords } from '../../../messages/when';
import { staffRegion } from '../../../region';
import { FindingLossSection } from '../../finding-loss';
import { Changes } from './changes';
import { Decide } from './decide';
import { DraftFiles } from './draft-files';
import { LostMap } from './lost-map';
import { LostTables } from './lost-tables';
import { StaysOut } from './stays-out';

/** A draft: what it withholds, what it changes, and the decision. */
export default staffPage('releases.see', async ({ db, person, programme, params, search }) => {
  const draft = await readDraft<FullDraftReport>(db, Number(params.id) || 0);
  if (!draft || !programme) return { title: texts.title, content: <Sorry text={texts.unknownDraft} /> };
  const { report } = draft;
  const region = staffRegion(programme);
  const of = { draft: draft.id };
  const compared = await latestJob(db, 'finding-loss', of);
  return {
    title: texts.draftTitle(draft.number),
    cautions: true,
    content: (
      <>
        {draft.state === 'open' ? null : (
          <p className="staff-good">
            {draft.state === 'published'
              ? texts.decided.published(draft.decidedBy!, instantWords(draft.decidedAt!), draft.number)
              : texts.decided.dropped(draft.decidedBy!, instantWords(draft.decidedAt!))}
          </p>
        )}
        <p className="staff-headline">
          {texts.headline(report.audit.publishedCells, report.audit.withheldCells)}
        </p>
        <p>{texts.headlineMore(report.primary, report.complementary)}</p>
        <p>{texts.auditClean(report.audit.programs)}</p>
        <p className="quiet">{texts.madeBy(draft.madeBy, instantWords(draft.madeAt))}</p>
        <StaysOut report={report} />
        <LostTables report={report} />
        <LostMap report={report} region={region} search={search} simulated={programme.simulated} />
        <FindingLossSection of={of} job={compared} person={person} isOpen={draft.state === 'open'} />
        <Changes report={report} />
        {draft.state === 'open' ? (
          <>
            <DraftFiles draft={draft} />
            <Decide draft={draft} person={person} two={await asksTwoPersons(db)} />
          </>
        ) : null}
      </>
    ),
  };
});
