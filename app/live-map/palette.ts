/** Colours of the map as the page's styles set them now: light, dark or as a reader wants them. */
export interface Palette {
  ramp: string[];
  confirmed: string;
  clean: string;
  dot: string;
  hatch: string;
  sheet: string;
  county: string;
  district: string;
  state: string;
  ink: string;
}

export function readPalette(element: Element): Palette {
  const style = getComputedStyle(element);
  const read = (name: string) => style.getPropertyValue(`--${name}`).trim();
  return {
    ramp: [1, 2, 3, 4].map((step) => read(`share-${step}`)),
    confirmed: read('confirmed'),
    clean: read('clean'),
    dot: read('dot'),
    hatch: read('hatch'),
    sheet: read('sheet'),
    county: read('line-county'),
    district: read('line-district'),
    state: read('line-state'),
    ink: read('ink'),
  };
}
