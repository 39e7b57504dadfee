import { createRequire } from 'node:module';
import { join } from 'node:path';
import { renderAsync } from '@resvg/resvg-js';

/** Pixels for each user unit: enough for print at 13 cm and for a slide. */
const SCALE = 2;

/** Draws an SVG document as PNG, always with the same fonts, so that it looks alike on every machine. */
export async function renderPng(svg: string): Promise<Uint8Array> {
  const image = await renderAsync(svg, {
    fitTo: { mode: 'zoom', value: SCALE },
    background: '#ffffff',
    font: {
      fontFiles: fontFiles(),
      loadSystemFonts: false,
      defaultFontFamily: FAMILY,
      sansSerifFamily: FAMILY,
    },
  });
  return image.asPng();
}

const FAMILY = 'Source Sans 3';
const FACES = ['400Regular/SourceSans3_400Regular.ttf', '700Bold/SourceSans3_700Bold.ttf'];

/** Found by Node's own way and not by the bundler's, which would look for a module in a font. */
function fontFiles(): string[] {
  const { resolve } = createRequire(join(process.cwd(), 'package.json'));
  return FACES.map((face) => resolve(`@expo-google-fonts/source-sans-3/${face}`));
}
