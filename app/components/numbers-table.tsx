import { type Attributes, element, text } from '@/lib/figures/svg';
import type { Speech } from '../messages/texts';
import type { MapPlace } from '../view/map-content';
import type { PlaceNumbers } from '../view/place-numbers';
import type { Report } from '../view/read-report';

/** The same as the map shows: every place of its grain, by state and name. */
export function NumbersTable({
  speech: { texts },
  report: { view, map },
}: {
  speech: Speech;
  report: Report;
}) {
  const { places } = map;
  const { card } = texts.layers;
  const ofFinds = view.layer === 'found' || view.layer === 'spread';
  const withNumbers = map.window !== 'all' && !ofFinds;
  const more = ofFinds ? card.first : view.layer === 'clusters' && !map.silent ? card.neighbours : null;
  return (
    <section className="numbers" aria-labelledby="table-heading">
      <h2 id="table-heading">{texts.table.heading}</h2>
      <details>
        <summary>{texts.table.all(places.length, map.grain)}</summary>
        {places.some(({ numbers }) => numbers.status === 'not screened') ? (
          <p className="on-paper">{texts.table.onPaper}</p>
        ) : null}
        <table id="numbers">
          <caption>
            {texts.layers.title(
              map,
              view.layer,
              texts.weedName(view.species),
              texts.herbicideName(view.group).short,
            )}
          </caption>
          <thead>
            <tr>
              <th scope="col">{texts.table.place}</th>
              <th scope="col">{texts.table.state}</th>
              <th scope="col">{texts.table.status}</th>
              {withNumbers
                ? [texts.table.tested, texts.table.resistant, texts.table.share, texts.table.interval].map(
                    (name) => (
                      <th scope="col" key={name}>
                        {name}
                      </th>
                    ),
                  )
                : null}
              {more ? <th scope="col">{more}</th> : null}
            </tr>
          </thead>
          {/* One text in place of a thousand elements that a browser would have to go through again. */}
          <tbody
            // biome-ignore lint/security/noDangerouslySetInnerHtml: markup made below, text escaped there
            dangerouslySetInnerHTML={{
              __html: places
                .map((place) => row(texts, place, { withNumbers, withMore: more !== null }))
                .join(''),
            }}
          />
        </table>
      </details>
    </section>
  );
}

function row(
  texts: Speech['texts'],
  { numbers, first, pattern }: MapPlace,
  { withNumbers, withMore }: { withNumbers: boolean; withMore: boolean },
): string {
  const { place, status } = numbers;
  return element(
    'tr',
    status === 'not screened' ? { class: 'blank' } : {},
    element('th', { scope: 'row' }, text(place.name)),
    ...[place.state ?? '', texts.status[status]].map((words) => cell(words)),
    ...(withNumbers ? numberCells(texts, numbers) : []),
    withMore ? cell(moreWords(texts, first, pattern), { class: 'words' }) : '',
  );
}

function numberCells(texts: Speech['texts'], { status, estimate }: PlaceNumbers): string[] {
  if (status === 'no public information') return [cell(texts.withheld, { colspan: 4 })];
  if (!estimate) return ['0', '', '', ''].map((words) => cell(words));
  return [
    texts.count(estimate.tested),
    texts.count(estimate.resistant),
    texts.percent(estimate.share),
    texts.interval(estimate),
  ].map((words) => cell(words));
}

function cell(words: string, attributes: Attributes = {}): string {
  return element('td', attributes, text(words));
}

function moreWords(texts: Speech['texts'], first: MapPlace['first'], pattern: MapPlace['pattern']): string {
  if (first) return texts.layers.firstWords(first);
  return pattern ? texts.layers.patterns[pattern] : '';
}
