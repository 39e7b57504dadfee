import { listAnalyses, readParts } from '@/db/repositories/analyses';
import { getProgramme } from '@/db/repositories/programme';
import { lookNextLayer } from '@/lib/findings/spread/look-next-layer';
import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import { staffRoute } from '../../../guard/staff-route';
import { analysisTexts as texts } from '../../../messages/analysis';
import { staff } from '../../../messages/en';
import { pairKey } from '../../../messages/pairs';
import { staffRegion } from '../../../region';

/** Where to look next as a layer for a map: GeoJSON. */
export const GET = staffRoute('analysis.see', async ({ db, params, note }) => {
  const [[latest], programme] = await Promise.all([listAnalyses(db), getProgramme(db)]);
  const spreads = latest ? await readParts(db, latest.id, { kind: 'spread' }) : [];
  const found = spreads.find((one) => one.design === null && pairKey(one) === params.pair)?.lookNext;
  if (!found || !programme) return new Response(`${texts.lookNextNone}\n`, { status: 404 });
  await note(`where to look next, ${params.pair}`);
  const about = [staff.private, ...(programme.simulated ? [SIMULATED_NOTICE] : []), ...CAUTIONS];
  return new Response(JSON.stringify(lookNextLayer(staffRegion(programme), found, about)), {
    headers: {
      'Content-Type': 'application/geo+json',
      'Content-Disposition': `attachment; filename="private-where-to-look-next-${params.pair!.replace(/[^\w-]/g, '')}.geojson"`,
    },
  });
});
