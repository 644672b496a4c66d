import { z } from 'zod';
import { parseClock } from '../../tariffs/clock-text.js';
import { TIMER_FIELDS } from '../fields/timer-fields.js';
import { numberSchema } from './number-schema.js';
import { blankTimerCells, type TimerCells } from './timer-cells.js';

const clockTime = z.string().transform((text, context) => {
  const minutes = parseClock(text);
  if (minutes !== undefined) return minutes / 1440;
  context.addIssue(`"${text}" is no time: write HH:MM`);
  return z.NEVER;
});
const timer = (load: 'car' | 'hotWater') => ({
  isOn: z.boolean(),
  from: clockTime,
  to: clockTime,
  powerKw: numberSchema(TIMER_FIELDS[load].powerKw),
});
const { kwhPerDay } = TIMER_FIELDS.tank;

/** The timers of the starting inputs: times as HH:MM, power in kW. What is left out stays blank. */
export const startingTimersSchema = z.strictObject({
  car: z.strictObject(timer('car')).optional(),
  hotWater: z
    .strictObject({
      ...timer('hotWater'),
      kwhPerDay: numberSchema(kwhPerDay),
      heatedFrom: clockTime,
      heatedTo: clockTime,
    })
    .optional(),
  supplyLimitKw: numberSchema(TIMER_FIELDS.supply.limitKw).optional(),
});

/** The starting timers as cells. */
export function startingTimerCells(timers: z.infer<typeof startingTimersSchema> | undefined): TimerCells {
  const blank = blankTimerCells();
  const { car, hotWater, supplyLimitKw } = timers ?? {};
  const cells = ({ isOn, from, to, powerKw }: NonNullable<typeof car>) => ({
    isOn: isOn ? 'yes' : 'no',
    from,
    to,
    powerKw,
  });
  return {
    car: car === undefined ? blank.car : cells(car),
    hotWater: hotWater === undefined ? blank.hotWater : cells(hotWater),
    tank:
      hotWater === undefined
        ? blank.tank
        : { kwhPerDay: hotWater.kwhPerDay, from: hotWater.heatedFrom, to: hotWater.heatedTo },
    supply: { limitKw: supplyLimitKw ?? null },
  };
}
