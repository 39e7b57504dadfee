import type { ListedRelease } from '@/db/repositories/published';
import type { Speech } from '../messages/texts';
import type { ReleasesReport } from '../view/read-releases';
import { AsTyped } from './as-typed';
import { NoticePage } from './notice-page';

/** Where a release was: that it was taken back, and why. The server turns the meta element into the response's status. */
export function WithdrawnRelease({
  speech,
  listed,
  head,
}: {
  speech: Speech;
  listed: ListedRelease;
} & Pick<ReleasesReport, 'head'>) {
  const { texts, at } = speech;
  const { gone } = texts.releases;
  const { number, date, withdrawn } = listed;
  return (
    <NoticePage speech={speech} heading={gone.heading(number)} here={`/releases/${number}`} head={head}>
      <meta name="status" content="410" />
      <p>{gone.dates(date, withdrawn!.at)}</p>
      <blockquote>
        <AsTyped speech={speech}>{withdrawn!.note}</AsTyped>
      </blockquote>
      <p>{gone.copies}</p>
      <p>{gone.number}</p>
      <p>
        {head ? (
          <>
            <a href={at(`/releases/${head.number}`)}>{texts.releases.read(head.number)}</a> ·{' '}
          </>
        ) : null}
        <a href={at('/releases')}>{texts.releases.all}</a>
      </p>
    </NoticePage>
  );
}
