import { type Browser, chromium } from 'playwright-core';

/** Puts pages together by OpenGL as well, in software. */
const BY_GL = ['--use-gl=angle', '--use-angle=swiftshader'];

/**
 * Chromium as it starts by itself where there is no graphics processor: pages are put together without OpenGL, and only
 * a live map draws by its software.
 *
 * @param byGl puts pages together by OpenGL too: slower there, but a frame of the map is then not read back by the page's
 *   own thread, which no machine with a graphics processor does
 */
export function openBenchBrowser(byGl = false): Promise<Browser> {
  return chromium.launch({
    executablePath: '/usr/bin/chromium',
    headless: true,
    args: [
      ...['--no-sandbox', '--disable-background-networking', '--disable-component-update', '--no-first-run'],
      ...['--enable-unsafe-swiftshader', ...(byGl ? BY_GL : [])],
    ],
  });
}
