import { type Browser, chromium } from 'playwright-core';

/** Chromium as a reader has it, with graphics by software: the machine of a benchmark may have no other. */
export function openBenchBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: '/usr/bin/chromium',
    headless: true,
    args: [
      ...['--no-sandbox', '--disable-background-networking', '--disable-component-update', '--no-first-run'],
      ...['--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'],
    ],
  });
}
