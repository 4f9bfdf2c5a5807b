import type { Mark } from '../../../shared/contract/marks.ts';
import { translate } from '../../language/catalogue.ts';
import { text } from '../../language/figures.ts';
import { channelOf } from '../../state/open-burn.ts';
import { handProbes, setupChannels } from '../../state/setup.ts';
import { readingText } from '../kit/reading-words.ts';

/** A mark in a few words: "fed 1.22 kg", "lid on", "wind: some". */
export function markWords(mark: Mark): string {
  const words = translate().marks;
  const name = words.names[mark.kind];
  switch (mark.kind) {
    case 'fed':
      return mark.massKg === undefined ? words.fedUnweighed : words.fedMass({ mass: text('mass', mark.massKg) });
    case 'logOut':
      return mark.massKg === undefined ? name : `${name}, ${text('mass', mark.massKg)}`;
    case 'waterIn':
    case 'waterOut':
    case 'goodsIn':
    case 'goodsOut':
      return words.moved({ what: name, mass: text('mass', mark.massKg), temp: text('temperature', mark.tempC, 0) });
    case 'wind':
    case 'rain':
      return words.step({ what: name, step: translate().other.steps[mark.step] ?? String(mark.step) });
    case 'probeMoved': {
      const probe = setupChannels.value.find(({ id }) => id === mark.channelId);
      return probe ? words.step({ what: name, step: probe.name }) : name;
    }
    case 'reading': {
      const probe = channelOf(mark.channelId) ?? handProbes.value.find(({ id }) => id === mark.channelId);
      return probe ? translate().hand.mark({ name: probe.name, value: readingText(probe, mark.value) }) : name;
    }
    case 'note':
      return mark.note ?? name;
    default:
      return name;
  }
}
