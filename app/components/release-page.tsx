import type { ListedRelease } from '@/db/repositories/published';
import { aboutRelease } from '@/lib/release/files/about';
import { bibtex } from '@/lib/release/files/citation';
import type { ReleaseHead } from '@/lib/release/types';
import { periodLabel } from '@/lib/vocabulary/terms';
import type { Speech } from '../messages/texts';
import { dataset } from '../view/dataset';
import { AsTyped } from './as-typed';
import { CaseDefinition } from './case-definition';
import { Cautions } from './cautions';
import { Downloads } from './downloads';
import { Errata } from './errata';
import { JsonLd } from './json-ld';
import { Masthead } from './masthead';
import { ReleaseChangesSection } from './release-changes';
import '../styles/releases.css';

/** The page of a release that stands. */
export function ReleasePage({
  speech,
  head,
  listed,
  newest,
}: {
  speech: Speech;
  head: ReleaseHead;
  listed: ListedRelease;
  newest: number;
}) {
  const { texts, at } = speech;
  const { number, note } = head;
  return (
    <>
      <title>{`${texts.releases.one(number)} · ${head.region} · ${texts.name}`}</title>
      <Masthead
        speech={speech}
        here={`/releases/${number}`}
        programme={head.programme}
        simulated={head.simulated}
      />
      <main id="content" className="releases">
        <div className="headline">
          <h1>{texts.releases.one(number)}</h1>
          <p className="quiet">
            {texts.releases.dated(head.date)} <a href={at(`/?release=${number}`)}>{texts.releases.map}</a> ·{' '}
            <a href={at('/releases')}>{texts.releases.all}</a>
          </p>
          {newest > number ? (
            <p className="newer">
              <a href={at(`/releases/${newest}`)}>{texts.releases.newer(newest)}</a>
            </p>
          ) : null}
          {note ? (
            <p>
              {texts.releases.note}: <AsTyped speech={speech}>{note}</AsTyped>
            </p>
          ) : null}
        </div>
        <Errata speech={speech} release={number} errata={listed.errata} />
        <ReleaseChangesSection speech={speech} changes={head.changes} />
        <Holds speech={speech} head={head} />
        <Downloads speech={speech} head={head} />
        <Citation speech={speech} head={head} />
        <Cautions speech={speech} />
        <JsonLd value={dataset(head)} />
      </main>
    </>
  );
}

function Holds({ speech, head }: { speech: Speech; head: ReleaseHead }) {
  const { texts } = speech;
  const { facts } = texts.releases;
  const seasons = (list: readonly (string | number)[]) =>
    texts.list(list.map(String), { comma: ', ', limit: 40 }) || texts.releases.noneYet;
  const rows: [string, React.ReactNode][] = [
    [facts.seasons, seasons(head.closedSeasons)],
    ...(head.openSeason === null ? [] : [[facts.open, String(head.openSeason)] as [string, string]]),
    [facts.windows, seasons(head.windows.map(periodLabel))],
    [facts.pairs, texts.list(texts.say.byWeed(head.pairs), { limit: 40 })],
    [
      facts.definition,
      <CaseDefinition key="definition" speech={speech} caseDefinition={head.caseDefinition} />,
    ],
    [facts.policy, texts.releases.policy(head.policy.version)],
    ...(head.tests
      ? [[facts.tests, `${head.tests.seed}, ${texts.count(head.tests.permutations)}`] as [string, string]]
      : []),
  ];
  return (
    <section aria-labelledby="holds-heading">
      <h2 id="holds-heading">{texts.releases.holds}</h2>
      <dl className="facts">
        {rows.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

/** Titles of releases are those of their files, in one language. */
function Citation({ speech, head }: { speech: Speech; head: ReleaseHead }) {
  const { releases } = speech.texts;
  const about = aboutRelease({ head }, head.number);
  return (
    <section aria-labelledby="cite-heading">
      <h2 id="cite-heading">{releases.cite}</h2>
      <p>{releases.citation(about.programme, about.date.slice(0, 4), about.title, about.date)}</p>
      <details>
        <summary>{releases.bibtex}</summary>
        <pre lang="en">{bibtex(about)}</pre>
      </details>
    </section>
  );
}
