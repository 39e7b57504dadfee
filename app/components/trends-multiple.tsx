import { periodLabel } from '@/lib/vocabulary/terms';
import type { Speech } from '../messages/texts';
import type { TrendsReport } from '../view/trends-report';
import { MultipleChart } from './multiple-chart';

/** Resistance to several groups, window by window. */
export function TrendsMultiple({ speech, report }: { speech: Speech; report: TrendsReport }) {
  const { texts } = speech;
  const { multiple, head, pair } = report;
  const [any] = multiple;
  if (!any) return null;
  return (
    <section className="trends" aria-labelledby="multiple-heading">
      <h2 id="multiple-heading">{texts.trends.several(texts.weedName(pair.species), any.place.name)}</h2>
      <MultipleChart
        speech={speech}
        rows={multiple}
        nameOf={({ period }) => periodLabel(period)}
        by={texts.trends.found.window}
        simulated={head.simulated}
        prefix="multiple-"
      />
    </section>
  );
}
