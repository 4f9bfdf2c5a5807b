import { createBurnSchema } from '../../shared/contract/burns.ts';
import type { Practice as PracticeState } from '../../shared/contract/practice.ts';
import type { PracticeSpeed } from '../../shared/contract/practice-speeds.ts';
import type { Language } from '../../shared/language/language.ts';
import type { serviceParts } from '../../shared/language/service/service-parts.ts';
import { AppError } from '../base/app-error.ts';
import { newId } from '../base/identifiers.ts';
import type { WallClock } from '../base/wall-clock.ts';
import type { Burns } from '../burns/burns.ts';
import type { Hub } from '../live/hub.ts';
import { completenessOf } from '../recording/repairs.ts';
import { inventoryDocuments } from '../records/record-documents.ts';
import { toBurnRecord } from '../simulator/burn-record.ts';
import { heronLiveBurn } from '../simulator/heron.ts';
import { namedUuid } from '../simulator/named-uuid.ts';
import { plannedBurn } from '../simulator/planned-burn.ts';
import { simulateBurn } from '../simulator/simulate-burn.ts';
import type { Store } from '../store/store.ts';
import type { BoardOnRequest } from './board-on-request.ts';
import { practiceBurnId, practiceRevision, practiceStove } from './practice-things.ts';
import { restoreThing, withdrawUnusedThings } from './sample-burns.ts';

/** More than a person feeds in a practice. */
const PILE_KG = 10;
const SPARE_KINDLING_KG = 0.15;
/** The time, of the person's seconds, for the board to send the missing scans of a burn that has ended. */
const REPAIR_MS = 20_000;

type PracticeWords = (typeof serviceParts)[Language]['practice'];

/** A practice burn, as the service runs it. */
export type Practice = ReturnType<typeof createPractice>;

export interface PracticeContext {
  store: Store;
  clock: WallClock;
  hub: Hub;
  burns: Burns;
  board: BoardOnRequest;
}

/**
 * A burn on the simulated stove with its description complete, lit and fed by the person who practises, at a speed of
 * their choice. While it records, the whole service runs at that speed; therefore no other board may be attached.
 */
export function createPractice({ store, clock, hub, burns, board }: PracticeContext) {
  let burnId: string | undefined;
  let isOn = false;
  let scales: PracticeState['scales'];
  let fed = { wood: 0, kindling: 0 };

  const state = (): PracticeState => ({
    timeScale: clock.scale,
    ...(burnId !== undefined && { burnId }),
    ...(scales && { scales }),
  });
  const publish = () => hub.publish({ type: 'practice', practice: state() });

  board.setOnRaked(({ waterKg, waterTempC, charKg, brandsKg, fedKg }) => {
    if (burnId === undefined) return;
    fed = fedKg;
    scales = {
      woodKg: Math.max(0, PILE_KG - fed.wood),
      kindlingKg: SPARE_KINDLING_KG,
      ...{ brandsKg, charKg, waterKg, waterTempC },
    };
    publish();
  });

  /** Switches the board off and returns to the usual speed. */
  async function rest(): Promise<void> {
    if (!isOn) return;
    isOn = false;
    await board.switchOff();
    clock.runAt();
    publish();
  }

  const unsubscribe = hub.subscribe(({ event }) => {
    if (event.type === 'burnGone' && practiceBurnId.isOne(event.burnId)) {
      if (event.burnId === burnId) burnId = scales = undefined;
      withdrawUnusedThings(store);
      void rest();
    }
    if (event.type !== 'burn' || event.burn.id !== burnId || event.burn.status === 'running') return;
    if (completenessOf(store, burnId)) void rest();
    else clock.setTimer(REPAIR_MS * clock.scale, () => void rest());
  });

  function refuseOthers(): void {
    if (store.documents.list('burn').some(({ withdrawn, body }) => !withdrawn && body.status === 'running')) {
      throw new AppError('practice/burn-running');
    }
    const simulated = board.attached()?.id;
    if (burns.setup.boards().some(({ id }) => id !== simulated)) throw new AppError('practice/board-attached');
  }

  /** The next burn of the Heron's workshop, with a stove of its own. */
  function record(words: PracticeWords, boardId: string) {
    const nowMs = clock.wallMs();
    const { scenario, seed, errors, description } = heronLiveBurn(nowMs);
    const described = {
      ...description,
      id: practiceBurnId.at(nowMs),
      title: words.title,
      stove: practiceStove(words.stove),
      revision: practiceRevision(words.change),
      boardId,
    };
    return toBurnRecord(simulateBurn(scenario, seed, errors), described);
  }

  function beginBurn(language: Language, words: PracticeWords, boardId: string): void {
    const planned = record(words, boardId);
    for (const { kind, id, body } of inventoryDocuments(planned)) {
      restoreThing(store, kind, id);
      store.documents.create(kind, { id, body });
    }
    const { operator: _nobodyYet, ...described } = plannedBurn(planned);
    burnId = planned.id;
    burns.lifecycle.create(createBurnSchema.parse(described), language);
    const [kindling, wood] = [planned.fuelLots.find(({ kind }) => kind === 'kindling'), planned.fuelLots[0]];
    const { kindlingKg } = heronLiveBurn(0).scenario.plan;
    const massOf = (lotId: string | undefined) => (lotId === wood?.id ? PILE_KG : kindlingKg + SPARE_KINDLING_KG);
    for (const weighing of planned.weighings) {
      if (weighing.when !== 'start') continue;
      const massKg = weighing.of === 'fuelPile' ? massOf(weighing.fuelLotId) : weighing.massKg;
      burns.weighings.create(planned.id, { ...weighing, massKg });
    }
    // Wood laid in the firebox: it burns once the fire is lit.
    burns.marks.create(planned.id, {
      id: newId(clock.wallMs()),
      kind: 'fed',
      elapsedUs: 0,
      massKg: kindlingKg,
      ...(kindling && { fuelLotId: kindling.id }),
    });
  }

  /** @returns whether there was any */
  function removeUnfinished(): boolean {
    const unfinished = store.documents
      .unfinishedBurns()
      .filter(({ id, withdrawn }) => !withdrawn && practiceBurnId.isOne(id));
    for (const { id } of unfinished) burns.lifecycle.remove(id);
    return unfinished.length > 0;
  }

  return {
    state,
    /**
     * Switches the board on and begins to record; the fire is not lit yet.
     * @throws AppError practice/burn-running, practice/board-attached
     */
    async begin(speed: PracticeSpeed, language: Language): Promise<PracticeState> {
      refuseOthers();
      // Loaded for the first practice, so that a start does not load every sentence of the service.
      const { serviceParts } = await import('../../shared/language/service/service-parts.ts');
      await board.switchOff();
      isOn = true;
      scales = undefined;
      clock.runAt(speed);
      try {
        // A separate identity for each speed: the stored verdict on a board's clock applies to one board.
        const { id } = await board.switchOn(namedUuid(`practice board ${speed}`, 0));
        beginBurn(language, serviceParts[language].practice, id);
      } catch (error) {
        burnId = undefined;
        await rest();
        throw error;
      }
      publish();
      return state();
    },
    /** @throws AppError practice/burn-running while a practice runs faster than real boards */
    refuseBoards(): void {
      if (isOn && clock.scale !== 1) throw new AppError('practice/burn-running');
    },
    /** Removes a practice that a killed run left unfinished: its simulated stove no longer exists. */
    restore(): void {
      if (removeUnfinished()) board.forget();
    },
    /** Removes an unfinished practice and switches the board off. */
    async close(): Promise<void> {
      removeUnfinished();
      unsubscribe();
      if (isOn) await board.switchOff();
    },
  };
}
