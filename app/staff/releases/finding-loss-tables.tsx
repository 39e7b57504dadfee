import type { FindingLoss } from '@/lib/jobs/finding-loss';
import type { ClusteringLoss, DetectionLoss, SpeedLoss } from '@/lib/release/public-loss';
import { periodLabel } from '@/lib/vocabulary/terms';
import { DataTable } from '../components/data-table';
import { analysisTexts } from '../messages/analysis';
import { findingLossTexts as texts } from '../messages/finding-loss';
import { pairKey, pairWords } from '../messages/pairs';

/** Public findings beside exact ones: clusters, first finds and speeds, in sentences and as tables. */
export function FindingLossTables({ loss }: { loss: FindingLoss }) {
  return (
    <>
      {loss.ofWhatEntered ? null : <p>{texts.storedNow}</p>}
      <Clusters clusterings={loss.clusterings} />
      <Finds detections={loss.detections} />
      <Speeds speeds={loss.speeds} />
      <p className="quiet">{texts.ofStaff}</p>
    </>
  );
}

function Clusters({ clusterings }: { clusterings: readonly ClusteringLoss[] }) {
  const same = clusterings.filter(({ verdict }) => verdict === 'same').length;
  const exact = clusterings.filter((map) => map.exact === 'lie together');
  const inPublic = clusterings.filter((map) => map.released === 'lie together');
  const told = exact.filter((map) => map.released === 'lie together').length;
  const either = [...exact, ...inPublic.filter((map) => map.exact !== 'lie together')];
  const words = (verdict: ClusteringLoss['released']) =>
    verdict === null ? texts.untold : analysisTexts.verdicts[verdict];
  return (
    <>
      <p>{texts.maps(same, clusterings.length)}</p>
      <p>{texts.clusters(exact.length, told, inPublic.length - told)}</p>
      {either.length === 0 ? null : (
        <DataTable
          caption={texts.clusterCaption}
          columns={texts.clusterColumns}
          rows={either.map((map) => ({
            key: `${pairKey(map)} ${periodLabel(map.period)}`,
            cells: [
              pairWords(map),
              periodLabel(map.period),
              words(map.exact),
              words(map.released),
              texts.counties(map.counties),
            ],
          }))}
        />
      )}
    </>
  );
}

function Finds({ detections }: { detections: readonly DetectionLoss[] }) {
  const counties = detections.filter(({ grain }) => grain === 'county');
  const districts = detections.filter(({ grain }) => grain === 'district');
  return (
    <>
      <p>
        {sentence(texts.county, counties)} {texts.byDistrict(sum(counties, 'byDistrict'))}
      </p>
      {districts.length > 0 ? <p>{sentence(texts.district, districts)}</p> : null}
      <details>
        <summary>{texts.findCaption}</summary>
        <DataTable
          caption={texts.findCaption}
          columns={texts.findColumns}
          rows={counties.map((one) => ({
            key: pairKey(one),
            cells: [pairWords(one), one.exact, one.kept, one.moved, one.byDistrict, one.vanished.length],
          }))}
        />
      </details>
    </>
  );
}

function Speeds({ speeds }: { speeds: readonly SpeedLoss[] }) {
  if (speeds.length === 0) return <p>{texts.noSpeed}</p>;
  return (
    <DataTable
      caption={texts.speedCaption}
      columns={texts.speedColumns}
      rows={speeds.map((one) => ({
        key: pairKey(one),
        cells: [pairWords(one), texts.speed(one.exact), texts.speed(one.released), texts.agree(one.agree)],
      }))}
    />
  );
}

function sentence(where: string, finds: readonly DetectionLoss[]): string {
  const vanished = finds.reduce((total, one) => total + one.vanished.length, 0);
  return texts.finds(where, sum(finds, 'exact'), sum(finds, 'kept'), sum(finds, 'moved'), vanished);
}

function sum(finds: readonly DetectionLoss[], name: 'exact' | 'kept' | 'moved' | 'byDistrict'): number {
  return finds.reduce((total, one) => total + one[name], 0);
}
