import { openBenchBrowser } from './bench/site/browser';
import { measureRecolouring } from './bench/site/recolouring';
const b = await openBenchBrowser(true);
const { script } = await measureRecolouring(b, 'http://127.0.0.1:4102', 9);
console.log(script.map((x) => x.toFixed(1)).join(' '));
await b.close();
