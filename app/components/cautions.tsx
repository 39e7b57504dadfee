import type { Speech } from '../messages/texts';

/** The standing cautions, in readable size. */
export function Cautions({ speech: { texts } }: { speech: Speech }) {
  return (
    <section className="cautions" aria-labelledby="cautions-heading">
      <h2 id="cautions-heading">{texts.cautions.heading}</h2>
      <ul>
        {texts.cautions.all.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  );
}
