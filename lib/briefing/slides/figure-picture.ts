import { Resvg } from '@resvg/resvg-js';
import { facePath } from '../fonts';

/** A figure of `lib/figures` as a PNG picture of this width in pixels, in the faces of documents and no others. */
export function figurePicture(markup: string, width: number): Uint8Array {
  return new Resvg(markup, {
    fitTo: { mode: 'width', value: width },
    background: '#ffffff',
    font: {
      fontFiles: [facePath('sans'), facePath('sans-bold'), facePath('sans-italic')],
      loadSystemFonts: false,
      defaultFontFamily: 'Source Sans 3',
      sansSerifFamily: 'Source Sans 3',
    },
  })
    .render()
    .asPng();
}
