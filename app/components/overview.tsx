import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import { unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import type { Overview } from '../view/overview';
import { findPlace } from '../view/places';

/** The region in three sentences. */
export function RegionWords({ speech: { texts }, overview }: { speech: Speech; overview: Overview }) {
  return (
    <div className="region-words">
      {texts.regionSentences(overview).map((sentence) => (
        <p key={sentence}>{unbroken(sentence)}</p>
      ))}
    </div>
  );
}

/** What is new in the release. */
export function Fresh({
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
  const news = newsOf({ speech, region, overview });
  const [shown, more] = [news.slice(0, MOST_SHOWN), news.slice(MOST_SHOWN)];
  return (
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
