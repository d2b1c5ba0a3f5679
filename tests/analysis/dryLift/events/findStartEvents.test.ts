import { describe, expect, it } from 'vitest';
import type { ChannelName } from '../../../../analysis/channels.ts';
import { findStartEvents, type StartEvents } from '../../../../analysis/dryLift/events/findStartEvents.ts';
import type { StartEvent } from '../../../../analysis/dryLift/events/startEvent.ts';
import { sourceTable } from '../../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../../analysis/uncertainty/stateUncertainty.ts';
import type { PracticePlant } from '../../../../rig/practiceBench/plant.ts';
import { accepted } from '../../../support/accepted.ts';
import { dryStartScript } from '../../../support/practiceRun.ts';
import { type WatchedStart, watchedStart } from '../../../support/watchedStart.ts';

const WATCH = { script: dryStartScript(600, 12), endS: 14.5 } as const;

function start(seed: number, plant: PracticePlant = {}, flowLagS?: number): WatchedStart {
  return watchedStart({ seed, scenario: 'healthy', plant, ...WATCH, ...(flowLagS === undefined ? {} : { flowLagS }) });
}

function eventsOf({ run, readings, bench }: WatchedStart, without: readonly ChannelName[] = []): StartEvents {
  const channels = Object.fromEntries(
    Object.entries(readings.channels).filter(([name]) => !without.some((channel) => channel === name)),
  );
  const record = { ...run.bench, channels: run.bench.channels.filter(({ channel }) => !without.includes(channel)) };
  return accepted(
    findStartEvents({ ...run, bench: record }, { ...readings, channels }, bench.truth().sweptVolumeM3PerRev),
  );
}

/** Within the interval of 99.9 % that a normal error of the stated size would have. */
function expectNear(event: StartEvent, sources: StartEvents['sources'], trueS: number | null): void {
  if (!event.seen || trueS === null) throw new Error(`not seen, or never was: ${JSON.stringify(event)}`);
  const { standardUncertainty } = stateUncertainty(event.atS, sourceTable(sources));
  expect(Math.abs(event.atS.value - trueS)).toBeLessThan(3.3 * standardUncertainty);
}

const plain = start(501);

describe('the events of a dry start (seeds 501 to 504)', () => {
  it('are found where they were, each with its uncertainty', () => {
    const events = eventsOf(plain);
    const { truth } = plain;
    expectNear(events.motorStart, events.sources, truth.motorStartS);
    expectNear(events.firstSuction, events.sources, truth.firstSuctionS);
    expectNear(events.oilAtInlet, events.sources, truth.oilAtInletS);
    expectNear(events.oilAtOutlet, events.sources, truth.oilAtOutletS);
    expectNear(events.sustainedDelivery, events.sources, truth.primedAtS);
  });

  it('are found by the flow alone where the bench has no suction channel', () => {
    const events = eventsOf(plain, ['suctionPressure']);
    expect(events.firstSuction).toMatchObject({ seen: false, why: { code: 'CHANNEL_MISSING' } });
    expect(events.oilAtInlet).toMatchObject({ seen: true, from: 'flow' });
    expectNear(events.oilAtInlet, events.sources, plain.truth.oilAtInletS);
    expectNear(events.sustainedDelivery, events.sources, plain.truth.primedAtS);
  });

  it('are found by the pressures where it has no flow meter, and nobody says that delivery was sustained', () => {
    const events = eventsOf(plain, ['flow']);
    expectNear(events.firstSuction, events.sources, plain.truth.firstSuctionS);
    expectNear(events.oilAtInlet, events.sources, plain.truth.oilAtInletS);
    expect(events.oilAtOutlet).toMatchObject({ seen: true, from: 'deliveryPressure' });
    expectNear(events.oilAtOutlet, events.sources, plain.truth.oilAtOutletS);
    expect(events.sustainedDelivery).toMatchObject({ seen: false, why: { code: 'CHANNEL_MISSING' } });
  });

  it('by the suction pressure alone end with the inlet', () => {
    const events = eventsOf(plain, ['flow', 'deliveryPressure']);
    expect(events.oilAtInlet).toMatchObject({ seen: true, from: 'suctionPressure' });
    expectNear(events.oilAtInlet, events.sources, plain.truth.oilAtInletS);
    expect(events.oilAtOutlet).toMatchObject({ seen: false, why: { code: 'CHANNEL_MISSING' } });
  });

  it('behind a shut delivery are not read from its pressure', () => {
    const shut = { ...plain, run: { ...plain.run, setUp: { ...plain.run.setUp, isDeliveryVented: false } } };
    expect(eventsOf(shut, ['flow']).oilAtOutlet).toMatchObject({ seen: false, why: { code: 'NOT_TOLD' } });
  });

  it('wait for foam to end: bursts are oil at the outlet, and not delivery', () => {
    const foam = start(502, { foam: { burstCount: 2, periodS: 1.2 } });
    const events = eventsOf(foam);
    expectNear(events.sustainedDelivery, events.sources, foam.truth.primedAtS);
    if (!events.oilAtOutlet.seen || !events.sustainedDelivery.seen) throw new Error('not seen');
    expect(events.sustainedDelivery.atS.value - events.oilAtOutlet.atS.value).toBeGreaterThan(1);
  });

  it('are found behind a meter of one second, and by channels with loose contacts', () => {
    const slow = start(503, {}, 1);
    const events = eventsOf(slow);
    expectNear(events.sustainedDelivery, events.sources, slow.truth.primedAtS);
    const wild = start(504, {
      sensors: [
        { fault: 'wild', channel: 'flow', everyReadings: 23, shows: 20 },
        { fault: 'wild', channel: 'suctionPressure', everyReadings: 31, shows: 0.5 },
        { fault: 'wild', channel: 'speed', everyReadings: 37, shows: 900 },
      ],
    });
    const found = eventsOf(wild);
    expectNear(found.motorStart, found.sources, wild.truth.motorStartS);
    expectNear(found.firstSuction, found.sources, wild.truth.firstSuctionS);
    expectNear(found.sustainedDelivery, found.sources, wild.truth.primedAtS);
  });

  it('without oil are a start, a suction, and reasons for the rest', () => {
    const dry = watchedStart({ seed: 505, scenario: 'unprimable', ...WATCH });
    const events = eventsOf(dry);
    expectNear(events.firstSuction, events.sources, dry.truth.firstSuctionS);
    for (const event of [events.oilAtInlet, events.oilAtOutlet, events.sustainedDelivery]) {
      expect(event.seen).toBe(false);
    }
    expect(events.oilAtOutlet).toMatchObject({ why: { code: 'DID_NOT_HAPPEN' } });
  });
});
