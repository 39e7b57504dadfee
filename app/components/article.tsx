import type { ArticleSection, Block } from '../messages/article';
import { Formula } from './formula';
import '../styles/article.css';

/** Sections to be read from top to bottom, with a list of them before. */
export function Article({ contents, sections }: { contents: string; sections: readonly ArticleSection[] }) {
  return (
    <>
      <nav className="contents" aria-label={contents}>
        <ul>
          {sections.map(({ id, heading }) => (
            <li key={id}>
              <a href={`#${id}`}>{heading}</a>
            </li>
          ))}
        </ul>
      </nav>
      {sections.map(({ id, heading, blocks }) => (
        <section key={id} id={id} aria-labelledby={`${id}-heading`}>
          <h2 id={`${id}-heading`}>{heading}</h2>
          {blocks.map((block) => (
            <Said key={keyOf(block)} block={block} />
          ))}
        </section>
      ))}
    </>
  );
}

function Said({ block }: { block: Block }) {
  if (typeof block === 'string') return <p>{block}</p>;
  if ('formula' in block) {
    return (
      // biome-ignore lint/a11y/noNoninteractiveTabindex: a long formula is scrolled on a phone, by keyboard too
      <figure className="formula" tabIndex={0}>
        <Formula name={block.formula} />
        <figcaption>{block.where}</figcaption>
      </figure>
    );
  }
  return (
    <ul>
      {block.map((item) => (
        <li key={item}>{item}</li>
      ))}
    </ul>
  );
}

function keyOf(block: Block): string {
  if (typeof block === 'string') return block;
  return 'formula' in block ? block.formula : block[0]!;
}
