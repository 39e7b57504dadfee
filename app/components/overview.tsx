import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import { unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import type { Overview } from '../view/overview';
import { findPlace } from '../view/places';
import '../styles/overview.css';

/** The front page before its map: the region in three sentences, and what is new in the release. */
export function OverviewSection({
  speech,
  head,
  region,
  overview,
}: {
  speech: Speech;
  head: ReleaseHead;
  region: Region;
  overview: Overview;
}) {
  const { texts, at } = speech;
  const page = texts.overviewPage;
  const [first, ...rest] = texts.regionSentences(overview, head.programme);
  const news = newsOf({ speech, region, overview });
  const [shown, more] = [news.slice(0, MOST_SHOWN), news.slice(MOST_SHOWN)];
  return (
    <div className="overview">
      <div className="region-words">
        <h1>{page.heading(head.region)}</h1>
        <p className="lead">{unbroken(first!)}</p>
        {rest.map((sentence) => (
          <p key={sentence}>{unbroken(sentence)}</p>
        ))}
      </div>
      <aside className="fresh" aria-labelledby="fresh-heading">
        <h2 id="fresh-heading">{page.fresh}</h2>
        <p className="quiet">
          <a href={at(`/releases/${head.number}`)}>{page.release(head.number, texts.day(head.date))}</a>
        </p>
        {news.length === 0 ? <p>{page.nothing}</p> : <News sentences={shown} />}
        {more.length > 0 ? (
          <details>
            <summary>{page.more(more.length)}</summary>
            <News sentences={more} />
          </details>
        ) : null}
      </aside>
    </div>
  );
}

const MOST_SHOWN = 4;

function News({ sentences }: { sentences: readonly string[] }) {
  return (
    <ul>
      {sentences.map((sentence) => (
        <li key={sentence}>{unbroken(sentence)}</li>
      ))}
    </ul>
  );
}

/** Arrivals, clear changes, and what findings say otherwise than before. */
function newsOf({
  speech: { texts },
  region,
  overview: { arrived, changes, verdicts },
}: {
  speech: Speech;
  region: Region;
  overview: Overview;
}): string[] {
  return [
    ...arrived.map(({ detections, ...pair }) =>
      texts.arrivedWords(
        pair,
        detections.map(({ place }) => findPlace(region, place).fullName),
      ),
    ),
    ...changes.map((change) => texts.say.changeWords(change)),
    ...(verdicts?.changed ?? []).map((verdict) => texts.verdictWords(verdict, verdicts!.since)),
  ];
}
