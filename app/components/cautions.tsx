import { CAUTIONS } from '@/lib/vocabulary/cautions';
import { en } from '../messages/en';

/** The standing cautions, in readable size. */
export function Cautions() {
  return (
    <section className="cautions" aria-labelledby="cautions-heading">
      <h2 id="cautions-heading">{en.cautions.heading}</h2>
      <ul>
        {CAUTIONS.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  );
}
