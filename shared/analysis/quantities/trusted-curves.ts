/** The curves of a record that all results use: calibrated, with untrusted readings removed and flagged. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { channelCurves } from '../curves/channel-curve.ts';
import type { FlaggedCurve } from '../curves/flags.ts';
import { flagOutOfWater } from '../curves/out-of-water.ts';
import { assessQuality } from '../curves/quality.ts';
import { boilingPointOfPlace } from './boiling-point-of-place.ts';
import { coldJunctionOf, probeErrors } from './probe-errors.ts';

export function trustedCurves(record: BurnRecord): FlaggedCurve[] {
  const flagged = assessQuality(record, channelCurves(record));
  const boiling = boilingPointOfPlace(
    record,
    flagged.map(({ curve }) => curve),
  );
  const waterProbes = flagged
    .filter(({ curve }) => curve.channel.role === 'water')
    .map((probe) => {
      const { channel } = probe.curve;
      return { flagged: probe, offsetK: probeErrors(channel, coldJunctionOf(channel, record.channels)).offsetK };
    });
  flagOutOfWater(record, waterProbes, boiling?.tempC);
  return flagged;
}
