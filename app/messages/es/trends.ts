import type { EffortBar } from '@/lib/figures/bars-figure';
import type { PanelWindow } from '@/lib/figures/panel-figure';
import type { MatchedChange } from '@/lib/findings/types';
import { type Period, type PlaceStatus, periodLabel } from '@/lib/vocabulary/terms';
import type { CropPanel, StateCrops } from '../../view/crop-panels';
import type { MatchedPlace, PanelPart, TrendsReport } from '../../view/trends-report';
import type { trends as english } from '../en/trends';
import { ratioNumber, sentence, sentenceStart } from '../format';
import { count, interval, list, many, percent } from './format';
import { cropName, weedName } from './names';
import { estimateWords } from './sentences';
import { texts } from './texts';

/** Lo que dice la página de tendencias. */
export const trends: typeof english = {
  title: (weed, group, place) => `${sentenceStart(weed)} y grupo ${group}, temporada por temporada, ${place}`,
  pair: 'Maleza y grupo de herbicidas',
  place: 'Lugar',
  districtsOf: (state) => `Distritos de ${state}`,
  read: 'Cómo leer esto',
  table: 'Como tabla',
  more: 'Todas las tendencias: esfuerzo, lugares, distritos, cada maleza y grupo',
  share: {
    heading: 'Proporción resistente',
    reading:
      'Cada punto es la proporción de las poblaciones evaluadas en esa temporada que resultaron resistentes; su barra, el intervalo del 95 %: una barra larga significa que se evaluaron pocas. Una temporada rayada está reservada, y ninguna línea la cruza. Una temporada sin marca no se evaluó.',
  },
  effort: {
    heading: 'Cuántas se evaluaron',
    reading:
      'Las barras llenas son poblaciones evaluadas; los marcos vacíos encima, las recibidas y no evaluadas (inmaduras, con moho, latentes, o la prueba fue nula). Donde las barras crecen, se envió más: mire aquí antes de tomar un aumento de la proporción por un aumento de la resistencia.',
    caption: 'Recibidas y evaluadas, por temporada',
    received: 'Recibidas',
    notTold: 'no se dice a esta escala',
  },
  match: {
    heading: 'Los mismos lugares, una temporada después',
    reading:
      'Solo lugares con números públicos en ambas temporadas, cada uno comparado consigo mismo, de modo que no importa dónde se envió más. La marca hueca es la temporada anterior, la llena la posterior; los números de la derecha dicen cuántas se evaluaron en cada una.',
    none: 'Aquí no se pueden comparar dos temporadas de un mismo lugar: muy pocas son públicas.',
    caption: (from, to) => `Proporción resistente en ${from} y ${to}, lugar por lugar`,
  },
  found: {
    heading: 'Dónde se encontró',
    reading:
      'Cada fila es un grupo de temporadas y todos los condados de la región; un condado que se cuenta junto con sus vecinos tiene el aspecto de todos ellos. Puede haberse encontrado en más lugares porque se buscó más: compare las partes no evaluadas.',
    caption: 'Condados y distritos según lo que es público de ellos, por grupo de temporadas',
    counties: 'Condados',
    districts: 'Distritos',
    states: 'Estados',
    window: 'Temporadas',
    first: 'Mostrada por primera vez',
    newIn: (period) => `Mostrada por primera vez en ${period}`,
    nothingNew: 'En estas temporadas no se mostró en ningún lugar por primera vez.',
    note: 'No son recuentos que crezcan por sí solos: cada grupo de temporadas vale por lo que se evaluó en él.',
  },
  several: (weed, place) => `Varios grupos a la vez: ${weed}, ${place}`,
  panels: {
    heading: 'Distrito por distrito',
    states: 'Estado por estado',
    reading:
      'Todos tienen los mismos ejes. Una caja es un grupo de temporadas contadas juntas: la línea es su proporción; la altura, su intervalo del 95 %. Los puntos son temporadas sueltas donde pueden mostrarse. Un grupo rayado está reservado; donde no hay nada, no se evaluó nada o una temporada suelta no puede mostrarse.',
    state: stateWords,
    none: 'Ningún distrito se evaluó para esta maleza y grupo.',
    absent: (places) => `No se evaluaron: ${list(places, { comma: ', ', limit: 40 })}.`,
    hidden: (places) =>
      `Nada público: ${list(places, { comma: ', ', limit: 40 })}. Eso no dice nada de lo que se encontró allí.`,
  },
  crops: {
    heading: 'Cultivo por cultivo',
    reading:
      'Poblaciones de campos de un cultivo en un estado. Cada caja es una sola temporada: la línea es su proporción; la altura, su intervalo del 95 %; una temporada rayada está reservada, y donde no hay nada, no se evaluó ninguna. Los cultivos están en lugares distintos y se tratan con herbicidas distintos, así que una diferencia entre dos de ellos no dice por qué.',
    state: cropsWords,
    newest: newestWords,
  },
  overview: {
    weed: (weed, groups) =>
      `${sentenceStart(weed)}: ${groups.length === 1 ? 'grupo' : 'grupos'} ${list(groups.map(String), { comma: ', ', limit: 30 })}`,
    heading: 'Cada maleza y grupo en la región',
    reading:
      'Toda la región, con los mismos ejes: los puntos son temporadas, una temporada rayada está reservada, el punto hueco es la temporada aún en evaluación. El nombre lleva a sus propias tendencias.',
    changes: (from, to) => `Cambio de ${from} a ${to}, cada lugar comparado consigo mismo`,
    ratio:
      'La razón de momios de una población resistente en la temporada posterior frente a la anterior; la barra es el intervalo del 95 %. Una barra que cruza la línea del 1 no es un cambio claro. Una flecha: el intervalo continúa.',
    less: '← menos',
    more: 'más →',
    noRatio: 'no se puede comparar',
    caption: 'Razones de momios con sus intervalos del 95 %',
    odds: 'Razón de momios',
    places: 'Lugares',
  },
  headline,
  effortWords,
  windowWords,
  pairWords,
  partWords,
  ratioWords,
  foundWords,
  matchWords,
};

function headline({ points, pair, place }: Pick<TrendsReport, 'points' | 'pair' | 'place'>): string[] {
  const shown = points.filter(({ withheld, tested, unfinished }) => !withheld && tested > 0 && !unfinished);
  const [first, last] = [shown[0], shown.at(-1)];
  if (!first || !last) {
    const any = points.some(({ withheld }) => withheld);
    return [
      any
        ? `Ninguna temporada suelta de ${weedName(pair.species)} y el grupo ${pair.group} es pública para ${place.name}.`
        : `No se evaluó ${weedName(pair.species)} de ${place.name} frente al grupo ${pair.group}.`,
    ];
  }
  const share = ({ resistant, tested }: typeof first) => resistant / tested;
  const sentences = [
    `${last.season}: ${estimateWords({ ...last, share: share(last) })}`,
    ...(first.season === last.season
      ? []
      : [
          `En ${first.season} era ${percent(share(first))} de ${count(first.tested)} (intervalo del 95 %: ${interval(first)}).`,
        ]),
  ];
  const withheld = points.filter((point) => point.withheld).length;
  if (withheld > 0)
    sentences.push(sentence(many(withheld, 'temporada está reservada', 'temporadas están reservadas')));
  return sentences;
}

function effortWords({ season, tested, received, unfinished }: EffortBar): string {
  const words = `${season}: ${count(tested)} evaluadas${received === null ? '' : ` de ${count(received)} recibidas`}`;
  return sentence(unfinished ? `${words}; ${texts.trend.unfinished}` : words);
}

function windowWords({ first, last, tested, resistant, low, high, withheld }: PanelWindow): string {
  const period = periodLabel({ first, last });
  if (withheld) return `${period}: ${texts.withheld}.`;
  return `${period}: ${estimateWords({ tested, resistant, low, high, share: tested > 0 ? resistant / tested : 0 })}`;
}

function stateWords({ state, districts, looks }: PanelPart, window: Period | undefined): string {
  const name = `${state.place.name}, ${many(districts.length, 'distrito', 'distritos')}`;
  const said = [
    [looks.confirmed, 'encontrada en'],
    [looks['none confirmed'], 'no encontrada en'],
    [looks['no public information'], 'reservada en'],
    [looks['not screened'], 'no evaluada en'],
  ] as const;
  const told = said.filter(([number]) => number > 0).map(([number, words]) => `${words} ${count(number)}`);
  return window ? `${name}, ${periodLabel(window)}: ${told.join(', ')}` : name;
}

function cropsWords({ state, crops }: StateCrops): string {
  const names = crops.map(({ crop }) => cropName(crop));
  return `${state.name}: ${list(names, { comma: ', ', limit: 30 })}`;
}

function newestWords({ points }: CropPanel): string {
  const newest = points.findLast(({ withheld, tested }) => !withheld && tested > 0);
  if (!newest) return '';
  const { season, tested, resistant } = newest;
  return `${season}: ${count(resistant)} de ${count(tested)}, ${percent(resistant / tested)} (${interval(newest)})`;
}

function pairWords({ place, from, to }: MatchedPlace, { from: a, to: b }: MatchedChange): string {
  return `${place.name}: ${a}: ${estimateWords(from)} ${b}: ${estimateWords(to)}`;
}

function partWords(period: string, status: PlaceStatus, counties: number): string {
  return `${period}: ${texts.status[status]}, ${many(counties, 'condado', 'condados')}`;
}

function ratioWords({ oddsRatio, low, high }: MatchedChange): string {
  if (oddsRatio === null) return trends.overview.noRatio;
  return `${ratioNumber(oddsRatio)} (${ratioNumber(low)} a ${ratioNumber(high)})`;
}

function foundWords(rows: readonly { window: Period; counties: Record<PlaceStatus, number> }[]): string {
  return rows
    .map(({ window, counties }) =>
      sentence(
        `${periodLabel(window)}: ${Object.entries(counties)
          .map(([status, number]) => `${texts.status[status as PlaceStatus]} ${count(number)}`)
          .join(', ')}`,
      ),
    )
    .join(' ');
}

function matchWords(matched: readonly MatchedPlace[]): string {
  const rose = matched.filter(({ from, to }) => to.share > from.share).length;
  const fell = matched.filter(({ from, to }) => to.share < from.share).length;
  return `De ${many(matched.length, 'lugar', 'lugares')}, la proporción fue mayor en la temporada posterior en ${count(rose)} y menor en ${count(fell)}.`;
}
