import { type Pair, periodLabel } from '@/lib/vocabulary/terms';
import type { ChangedVerdict, Verdict } from '../../view/changed-verdicts';
import type { Overview } from '../../view/overview';
import type { overviewPage as english } from '../en/overview';
import { sentence, sentenceStart } from '../format';
import { count, list, many } from './format';
import { weedName } from './names';
import { byWeed } from './sentences';

/** La portada, antes de su mapa. */
export const overviewPage: typeof english = {
  heading: (region) => `Resistencia a herbicidas en ${region}`,
  fresh: 'Qué hay de nuevo',
  nothing: 'De los números públicos no se puede decir nada nuevo.',
  more: (left) => `${left} más`,
  release: (number, date) => `Publicación ${number} del ${date}`,
  map: 'Una maleza y un grupo de herbicidas',
};

export function regionSentences(told: Overview): string[] {
  const { since, weeds, groups, results, counties } = told;
  const so = `${results.complete ? '' : 'más de '}${count(results.count)} resultados`;
  return [
    `Desde ${since} se ha evaluado semilla de ${count(counties.screened)} de ${many(counties.all, 'condado', 'condados')}, ${many(weeds, 'maleza', 'malezas')} frente a ${many(groups, 'grupo de herbicidas', 'grupos de herbicidas')}: ${so}, cada uno de una población frente a un grupo.`,
    confirmedSentence(told),
    movingSentence(told),
  ];
}

function confirmedSentence({ window, confirmed, clean, widest }: Overview): string {
  const found =
    confirmed.length > 0
      ? `En ${periodLabel(window)} se confirmó resistencia en ${list(weedsOf(confirmed), { comma: ', ' })}`
      : `En ${periodLabel(window)} no se muestra ninguna resistencia confirmada`;
  const most = widest
    ? `; la más extendida es la de ${pairName(widest)}: en ${count(widest.confirmed)} de ${many(widest.places, 'condado o área', 'condados y áreas')} con números públicos`
    : '';
  const none =
    clean.length > 0
      ? ` No se encontró en ${list(byWeed(clean), { comma: '; ' })}, lo que no significa que no exista.`
      : '';
  return `${found}${most}.${none}`;
}

function movingSentence({ speeds, clusters, rising }: Overview): string {
  const parts = [
    ...speeds.map(
      ({ species, group, speed, low, high }) =>
        `${pairName({ species, group })} ha avanzado hacia fuera unos ${round(speed)} km por temporada (intervalo del 95 %: ${round(low)} a ${round(high)} km)`,
    ),
    ...(clusters.length > 0
      ? [
          `las poblaciones resistentes están juntas más de lo que daría el azar en ${list(byWeed(clusters), { comma: '; ' })}`,
        ]
      : []),
    ...(rising.length > 0
      ? [`lugar por lugar, la proporción ha subido en ${list(byWeed(rising), { comma: '; ' })}`]
      : []),
  ];
  return parts.length > 0
    ? sentence(parts.join('; '))
    : 'Los números públicos no muestran nada que avance, esté junto o suba.';
}

export function arrivedWords(pair: Pair, places: readonly string[]): string {
  return `${sentenceStart(pairName(pair))}: nueva tras un historial limpio en ${list(places, { limit: 4 })}.`;
}

export function verdictWords({ finding, was, is }: ChangedVerdict, release: number): string {
  const when = finding.kind === 'clustering' ? `, ${periodLabel(finding.period)}` : '';
  const what = { clustering: 'en el espacio', trend: 'a lo largo de las temporadas', speed: 'velocidad' }[
    finding.kind
  ];
  return `${sentenceStart(pairName(finding))}${when}, ${what}: ${VERDICTS[is]}; en la publicación ${release}, ${VERDICTS[was]}.`;
}

const VERDICTS: Record<Verdict, string> = {
  'lie together': 'las poblaciones resistentes están juntas',
  'no sign': 'ninguna señal de que estén juntas',
  'too little tested': 'demasiado poco evaluado para decirlo',
  rise: 'una subida',
  fall: 'una bajada',
  'no clear change': 'sin cambio claro',
  told: 'se puede dar',
  'not told': 'no se podía dar',
};

function weedsOf(pairs: readonly Pair[]): string[] {
  return [...new Set(pairs.map(({ species }) => weedName(species)))];
}

function pairName({ species, group }: Pair): string {
  return `${weedName(species)}, grupo ${group}`;
}

function round(value: number | null): string {
  return count(Math.round(value!));
}
