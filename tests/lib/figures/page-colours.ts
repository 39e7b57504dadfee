import { readFileSync } from 'node:fs';

/** Colours by the name of their custom property, without its dashes. */
export type Colours = Record<string, string>;

/** The colours that the styles of the pages set, light and dark. */
export function pageColours(): { light: Colours; dark: Colours } {
  const styles = readFileSync('app/styles/base.css', 'utf8');
  const [first, second] = [...styles.matchAll(/:root \{(.*?)\}/gs)].map(([, block]) => coloursOf(block!));
  return { light: first!, dark: { ...first!, ...second! } };
}

function coloursOf(block: string): Colours {
  return Object.fromEntries(
    [...block.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(([, name, colour]) => [name!, colour!]),
  );
}
