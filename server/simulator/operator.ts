/**
 * The person at the stove: follows a plan, observes the fire and the pot, and acts a little late.
 *
 * The person watches the real pot (steam, bubbles, an exact thermometer), so that a probe fault in a scenario changes
 * the readings and not the burn.
 */
import { createRandom } from '../../shared/statistics/random.ts';
import type { BurnModel } from './burn-model.ts';
import type { RakedOut } from './fire.ts';
import type { Scenario } from './scenario.ts';
import { createTargetWatch } from './target-rule.ts';

/** An action of the person, with its exact moment. */
export type Action =
  | {
      kind: 'lit' | 'potOn' | 'nudged' | 'lidOn' | 'lidOff' | 'targetReached' | 'holdStart' | 'holdEnd';
      elapsedS: number;
    }
  | { kind: 'fed'; elapsedS: number; wood: 'wood' | 'kindling'; massKg: number; moistureWet: number }
  | { kind: 'waterIn'; elapsedS: number; massKg: number; tempC: number }
  | { kind: 'fireOut'; elapsedS: number; raked: RakedOut };

type Phase = 'before' | 'heating' | 'holding' | 'burningDown' | 'over';

/** Below this much time left in the hold, wood is only added if the pot would otherwise drop out. */
const LAST_CHARGE_S = 780;
/** Margin above the floor of the hold below which the person feeds early. */
const HOLD_MARGIN_K = 0.7;
const LOOSE = 0.62;
/** Raking out waits for the last flames: until this little wood is left, or for so long. */
const BURNT_DOWN_KG = 0.002;
const BURN_DOWN_S = 300;

export function createOperator(
  scenario: Scenario,
  model: BurnModel,
  seed: number | string,
  done: (action: Action) => void,
) {
  const { plan } = scenario;
  const random = createRandom(`${seed}/operator`);
  const targetC = plan.target.kind === 'boil' ? model.boilingPointC : plan.target.tempC;
  const holdFloorC = plan.target.kind === 'boil' ? targetC - 2 : targetC;
  const watch = createTargetWatch(plan.target, model.boilingPointC);
  let phase: Phase = 'before';
  let litAtS = Number.POSITIVE_INFINITY;
  let reachedAtS = Number.POSITIVE_INFINITY;
  let holdEndsAtS = Number.POSITIVE_INFINITY;
  let burnDownUntilS = Number.POSITIVE_INFINITY;
  let potIsOn = false;
  let chargesFed = 0;
  let poured = 0;
  let feedAtS: number | undefined;
  let nudgeAtS: number | undefined;
  let firstChargeFed = false;

  /** Seconds between seeing and acting: mostly near the typical value, sometimes much longer. */
  function delayS(): number {
    return plan.reactionS * Math.exp(0.5 * random.normal());
  }

  /** Charges scatter around the intended mass: wood comes in pieces. */
  function about(meantKg: number): number {
    return meantKg * Math.max(0.5, 1 + plan.chargeScatter * random.normal());
  }

  function feed(wood: 'wood' | 'kindling', weightKg: number) {
    const lot = scenario[wood];
    const drift = wood === 'wood' ? lot.moistureDriftPerCharge * chargesFed : 0;
    const moistureWet = Math.max(0.02, Math.min(0.6, lot.moistureWet + drift + lot.moistureScatter * random.normal()));
    // Whole grams: the mass read off an exact scale is the mass fed.
    const massKg = Math.round(weightKg * 1000) / 1000;
    model.feed({ kind: wood, massKg, moistureWet });
    if (wood === 'wood') chargesFed += 1;
    done({ kind: 'fed', elapsedS: model.elapsedS, wood, massKg, moistureWet });
  }

  function setLid(on: boolean) {
    if (model.lidOn === on) return;
    model.setLid(on);
    done({ kind: on ? 'lidOn' : 'lidOff', elapsedS: model.elapsedS });
  }

  function light() {
    phase = 'heating';
    litAtS = model.elapsedS;
    feed('kindling', about(plan.kindlingKg));
    done({ kind: 'lit', elapsedS: litAtS });
  }

  function wantsFeeding(): boolean {
    const now = model.elapsedS;
    if (phase === 'heating') return model.woodDryKg < plan.feedBelowKg;
    const low = model.waterMeanC < holdFloorC + HOLD_MARGIN_K;
    if (holdEndsAtS - now < LAST_CHARGE_S) return low && model.woodDryKg < 0.05 && holdEndsAtS - now > 180;
    return model.woodDryKg < plan.holdFeedBelowKg && (low || model.charKg < 0.25 || model.waterMeanC < targetC - 0.9);
  }

  function tend() {
    const now = model.elapsedS;
    if (!firstChargeFed && now - litAtS > 150) {
      firstChargeFed = true;
      feed('wood', about(plan.firstChargeKg));
    }
    if (!firstChargeFed) return;
    if (feedAtS === undefined && wantsFeeding()) feedAtS = now + delayS();
    if (feedAtS !== undefined && now >= feedAtS) {
      feedAtS = undefined;
      // Close to the target a full charge would only produce steam.
      const full = phase === 'heating' && model.waterMeanC < targetC - 4;
      if (wantsFeeding()) feed('wood', about(full ? plan.chargeKg : plan.holdChargeKg));
    }
    const loose = plan.nudges && model.closeness < LOOSE && model.woodDryKg > 0.25;
    if (nudgeAtS === undefined && loose) nudgeAtS = now + delayS();
    if (nudgeAtS !== undefined && now >= nudgeAtS) {
      nudgeAtS = undefined;
      if (model.closeness < LOOSE + 0.05) {
        model.nudge();
        done({ kind: 'nudged', elapsedS: now });
      }
    }
  }

  function startHold() {
    phase = 'holding';
    reachedAtS = model.elapsedS;
    // A hold never ends exactly on time: a little over, never under.
    holdEndsAtS = reachedAtS + (plan.holdS > 0 ? plan.holdS + delayS() : 0);
    done({ kind: 'targetReached', elapsedS: reachedAtS });
    if (plan.holdS > 0) done({ kind: 'holdStart', elapsedS: reachedAtS });
    setLid(plan.lidOnInHold);
  }

  function endHold() {
    if (phase === 'holding' && plan.holdS > 0) done({ kind: 'holdEnd', elapsedS: model.elapsedS });
    phase = 'burningDown';
    burnDownUntilS = model.elapsedS + BURN_DOWN_S;
  }

  function rakeOut() {
    phase = 'over';
    setLid(true);
    done({ kind: 'fireOut', elapsedS: model.elapsedS, raked: model.rakeOut() });
    model.setPot(false);
  }

  return {
    /** Must be called after every step of the model. */
    act(): void {
      const now = model.elapsedS;
      if (phase === 'before') {
        if (now >= plan.litAtS) light();
        return;
      }
      if (phase === 'burningDown' && (model.woodDryKg < BURNT_DOWN_KG || now >= burnDownUntilS)) rakeOut();
      if (phase === 'burningDown' || phase === 'over') return;
      if (!potIsOn && now - litAtS >= plan.potOnAfterLitS) {
        potIsOn = true;
        model.setPot(true);
        done({ kind: 'potOn', elapsedS: now });
      }
      const reached = watch.see(now, model.waterMeanC);
      if (phase === 'heating' && reached !== undefined) startHold();
      const topUp = plan.topUps[poured];
      if (topUp && now - reachedAtS >= topUp.afterTargetS) {
        poured += 1;
        model.pour(topUp.massKg, topUp.tempC);
        done({ kind: 'waterIn', elapsedS: now, massKg: topUp.massKg, tempC: topUp.tempC });
      }
      tend();
      if (now >= holdEndsAtS || now - litAtS >= plan.giveUpAfterS) endHold();
    },
    get phase(): Phase {
      return phase;
    },
    /** Wood fed outside the plan, by someone at a command line. */
    feedNow: (massKg: number): void => {
      if (phase === 'heating' || phase === 'holding') feed('wood', massKg);
    },
  };
}
