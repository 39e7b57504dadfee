import { createElement, type ReactNode } from 'react';

/** A formula as MathML, which browsers draw by themselves and screen readers read. */
export function Formula({ name }: { name: FormulaName }) {
  return createElement('math', { display: 'block' }, FORMULAS[name]());
}

const h = (tag: string, ...children: ReactNode[]) => createElement(tag, null, ...children);
const row = (...children: ReactNode[]) => h('mrow', ...children);
const i = (name: string) => h('mi', name);
const n = (value: string | number) => h('mn', String(value));
const o = (sign: string) => h('mo', sign);
const words = (text: string) => h('mtext', text);
const frac = (above: ReactNode, below: ReactNode) => h('mfrac', row(above), row(below));
/** Without the sign, for which many phones have no glyph that grows. */
const root = (...inner: ReactNode[]) => sup(paren(...inner), row(n(1), o('/'), n(2)));
const sub = (base: ReactNode, index: ReactNode) => h('msub', base, row(index));
const sup = (base: ReactNode, power: ReactNode) => h('msup', base, row(power));
const subsup = (base: ReactNode, index: ReactNode, power: ReactNode) =>
  h('msubsup', base, row(index), row(power));
const sum = (over: ReactNode) => h('munder', o('∑'), row(over));
const paren = (...inner: ReactNode[]) => row(o('('), ...inner, o(')'));
/** Ways to choose so many of so many, in a row: tall brackets need a glyph that grows. */
const choose = (of: ReactNode, chosen: ReactNode) => row(i('C'), paren(of, o(','), chosen));
/** Logarithm of how likely so many of so many are at their own share. */
const part = (count: ReactNode, of: ReactNode) => row(i('ℓ'), paren(count, o(','), of));

const FORMULAS = {
  wilson: () =>
    frac(
      row(
        ...[i('p'), o('+'), frac(sup(i('z'), n(2)), row(n(2), i('n'))), o('±'), i('z')],
        root(
          ...[frac(row(i('p'), paren(n(1), o('−'), i('p'))), i('n')), o('+')],
          frac(sup(i('z'), n(2)), row(n(4), sup(i('n'), n(2)))),
        ),
      ),
      row(n(1), o('+'), frac(sup(i('z'), n(2)), i('n'))),
    ),
  reassurance: () => row(i('u'), o('='), n(1), o('−'), sup(n('0.05'), row(n(1), o('/'), i('n')))),
  standardised: () =>
    row(
      ...[sub(i('z'), i('i')), o('=')],
      frac(
        row(frac(sub(i('r'), i('i')), sub(i('n'), i('i'))), o('−'), i('b')),
        root(i('a'), o('+'), frac(row(i('b'), paren(n(1), o('−'), i('b'))), sub(i('n'), i('i')))),
      ),
    ),
  moran: () =>
    row(
      ...[i('I'), o('=')],
      frac(
        row(sum(i('i')), sub(i('z'), i('i')), o('\u2062'), sub(h('mover', i('z'), o('¯')), i('i'))),
        row(sum(i('i')), subsup(i('z'), i('i'), n(2))),
      ),
    ),
  permutation: () => row(i('p'), o('='), frac(row(i('M'), o('+'), n(1)), row(i('R'), o('+'), n(1)))),
  around: () =>
    row(
      ...[i('P'), paren(i('X'), o('≥'), i('x')), o('='), sum(row(i('k'), o('≥'), i('x')))],
      frac(
        row(choose(i('n'), i('k')), choose(row(i('N'), o('−'), i('n')), row(i('K'), o('−'), i('k')))),
        choose(i('N'), i('K')),
      ),
    ),
  scan: () =>
    row(
      ...[i('L'), o('='), part(i('x'), i('n')), o('+')],
      part(row(i('K'), o('−'), i('x')), row(i('N'), o('−'), i('n'))),
    ),
  scanPart: () =>
    row(
      ...[part(i('x'), i('n')), o('='), i('x'), o('\u2062'), i('ln'), frac(i('x'), i('n')), o('+')],
      ...[paren(i('n'), o('−'), i('x')), o('\u2062'), i('ln'), frac(row(i('n'), o('−'), i('x')), i('n'))],
    ),
  verdict: () =>
    row(
      i('p'),
      o('='),
      n(3),
      o('\u2062'),
      i('min'),
      paren(...[1, 2, 3].flatMap((k) => [k > 1 ? o(',') : null, sub(i('p'), n(k))])),
    ),
  matched: () =>
    row(
      i('OR'),
      o('='),
      frac(
        row(sum(i('i')), frac(row(sub(i('a'), i('i')), sub(i('d'), i('i'))), sub(i('N'), i('i')))),
        row(sum(i('i')), frac(row(sub(i('b'), i('i')), sub(i('c'), i('i'))), sub(i('N'), i('i')))),
      ),
    ),
  trend: () =>
    row(
      ...[i('ln'), frac(sub(i('π'), i('it')), row(n(1), o('−'), sub(i('π'), i('it')))), o('=')],
      ...[sub(i('α'), i('i')), o('+'), i('β'), o('\u2062'), i('t')],
    ),
  series: () =>
    row(
      ...[
        i('S'),
        o('='),
        sum(row(i('i'), o('<'), i('j'))),
        i('sgn'),
        paren(sub(i('y'), i('j')), o('−'), sub(i('y'), i('i'))),
      ],
      ...[o(','), h('mspace'), i('m'), o('='), h('munder', i('med'), row(i('i'), o('<'), i('j')))],
      frac(
        row(sub(i('y'), i('j')), o('−'), sub(i('y'), i('i'))),
        row(sub(i('t'), i('j')), o('−'), sub(i('t'), i('i'))),
      ),
    ),
  front: () => row(sub(i('t'), i('i')), o('='), sub(i('t'), n(0)), o('+'), frac(sub(i('d'), i('i')), i('v'))),
  several: () =>
    row(
      sub(i('q'), i('k')),
      o('='),
      frac(row(words('#'), paren(i('R'), o('≥'), i('k'))), row(words('#'), paren(i('T'), o('≥'), i('k')))),
    ),
} satisfies Record<string, () => ReactNode>;

export type FormulaName = keyof typeof FORMULAS;
