import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

const CHROMIUM = '/usr/bin/chromium';
const QUIET = [
  '--no-sandbox',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
/**
 * Of all lists of features the last one counts: what the library switches off as well, and what would draw the popup of
 * an address bar that nobody sees, in two processes for each window.
 */
const WITHOUT = [
  ...['AvoidUnnecessaryBeforeUnloadCheckSync', 'DestroyProfileOnBrowserClose', 'DialMediaRouteProvider'],
  ...[
    'GlobalMediaControls',
    'HttpsUpgrades',
    'LensOverlay',
    'MediaRouter',
    'OptimizationHints',
    'PaintHolding',
  ],
  ...['ThirdPartyStoragePartitioning', 'Translate'],
  ...['WebUIOmniboxPopup', 'WebUIOmniboxAimPopup', 'WebUIOmniboxFullPopup'],
];
const SOFTWARE_GRAPHICS = ['--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'];

/** Headless Chromium, with graphics by software or with none at all. */
export function openBrowser({ graphics = true } = {}): Promise<Browser> {
  if (!existsSync(CHROMIUM)) {
    throw new Error(`Browser tests need ${CHROMIUM}. Install it with: sudo apt-get install chromium`);
  }
  const args = [
    ...QUIET,
    `--disable-features=${WITHOUT.join()}`,
    ...(graphics ? SOFTWARE_GRAPHICS : ['--disable-gpu', '--disable-3d-apis']),
  ];
  return chromium.launch({ executablePath: CHROMIUM, headless: true, args });
}
