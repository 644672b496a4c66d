/** What is asked of the workbook. An aim that is missed is printed as missed; it is never loosened. */
export const WORKBOOK_AIM = {
  /** Formula cells of a filled year. */
  formulaCells: 450_000,
  /** Longest formula as any cell shows it, characters. */
  longestFormula: 300,
  /** Median length of the distinct formulas, characters. */
  medianFormula: 60,
  /** Filled year and empty template, MB (of 1,000,000 bytes). */
  filledMegabytes: 4,
  templateMegabytes: 1.5,
  /** Time to load a filled year over that of the same readings without a formula. */
  loadOverNoFormulas: 4,
  /** Time to load and to recalculate all over those of an earlier workbook. */
  loadOverEarlier: 0.25,
  recalculateOverEarlier: 0.25,
  /** A changed unit rate, with a battery and without one, ms. */
  changeMs: 250,
  changeWithoutBatteryMs: 50,
  /** LibreOffice's peak memory, its processor time to save as .xlsx, and what it saves, over those of an earlier workbook. */
  memoryOverEarlier: 0.35,
  saveOverEarlier: 0.35,
  savedSizeOverEarlier: 0.35,
  /** Time to load several years over that of one. */
  loadYearsOverOne: 3,
} as const;
