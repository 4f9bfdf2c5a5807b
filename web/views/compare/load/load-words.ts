/** The load of a request, in the words of the form. */
import type { Load } from '../../../../shared/contract/prediction.ts';
import { translate, translateCompare } from '../../../language/catalogue.ts';
import { number, percent, text } from '../../../language/figures.ts';

/** The values entered; omitted ones are those of the burns. */
export function loadFacts(load: Load): string[] {
  const words = translateCompare().load;
  const described = translate().describe;
  const { contents, target, lid, startKind, vessel } = load;
  const fact = (label: string, value: string | false | undefined) => (value ? [`${label}\u00a0${value}`] : []);
  const quantity = (dimension: Parameters<typeof text>[0], value: number | undefined, decimals?: number) =>
    value !== undefined && text(dimension, value, decimals);
  return [
    ...fact(words.water, text('mass', load.waterKg)),
    ...fact(words.startTemp, quantity('temperature', load.startTempC)),
    ...fact(words.goods, contents?.map(({ massKg }) => text('mass', massKg)).join(' + ')),
    ...fact(described.target, target && (target.kind === 'boil' ? described.boil : text('temperature', target.tempC))),
    ...fact(described.holdMinutes, load.holdDurationS !== undefined && number(load.holdDurationS / 60, 0)),
    ...fact(words.lid, lid && (lid === 'on' ? words.lidOn : words.lidOff)),
    ...fact(described.fields.altitudeM, quantity('altitude', load.altitudeM)),
    ...fact(words.pressure, quantity('pressure', load.stationPressurePa)),
    ...fact(described.airTemp, quantity('temperature', load.airTempC)),
    ...fact(words.moisture, load.moistureWet !== undefined && percent(load.moistureWet)),
    ...fact(described.startKind, startKind && described[startKind]),
    ...fact(
      described.vessel,
      vessel &&
        ([quantity('mass', vessel.massKg), quantity('length', vessel.innerDiameterM)].filter(Boolean).join(', ') ||
          words.otherVessel),
    ),
  ];
}
