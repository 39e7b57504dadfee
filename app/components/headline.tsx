import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import type { Report } from '../view/read-report';

/** The finding in a sentence, and how sure it is; before it, what of the address could not be followed. */
export function Headline({
  speech: { texts },
  report: { view, misfits, chosen, places },
  level = 1,
}: {
  speech: Speech;
  report: Report;
  /** 2 where something else heads the page. */
  level?: 1 | 2;
}) {
  const region = chosen[0]!;
  const Heading = `h${level}` as const;
  const { short, action } = texts.herbicideName(view.group);
  return (
    <div className="headline">
      {misfits.length > 0 ? (
        <div className="misfits" role="status">
          {misfits.map((misfit) => (
            <p key={misfit.parameter}>{texts.say.misfitWords(misfit)}</p>
          ))}
        </div>
      ) : null}
      <Heading>
        {unbroken(texts.say.headline(texts.weedName(view.species), short, region, view.window))}.
      </Heading>
      {texts.say.summary(region, places, view.by).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {action ? (
        <p className="quiet">
          {sentenceStart(short)}: {action}.
        </p>
      ) : null}
    </div>
  );
}
