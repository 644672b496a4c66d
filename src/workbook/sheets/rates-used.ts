/** Which rates price the period: those of each day, or the latest of each tariff. */
export const RATES_USED = { asTheyWere: 'as they were', asTheyAreNow: 'as they are now' } as const;
