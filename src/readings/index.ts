export { CHANNELS, type Channel, isAveraged, SIGNED_CHANNELS, type SignedChannel } from './channels.js';
export type {
  ColumnReport,
  FileReport,
  FilesReport,
  Finding,
  FindingKind,
  FoundPlace,
} from './file-report.js';
export { formatFileReport, formatImportReport } from './format-import-report.js';
export type { HalfHourlyReadings } from './half-hourly-readings.js';
export { type ChannelReport, type ImportedReadings, type ImportReport, importFiles } from './import-files.js';
export { type GasPeriod, type ImportedGas, importGasFiles } from './import-gas-files.js';
export type {
  ChannelName,
  DateOrder,
  DecimalMark,
  FileOptions,
  ImportOptions,
  InputFile,
  OnConflict,
  StampPosition,
} from './import-options.js';
export {
  type DailyTemperature,
  type ImportedTemperature,
  importTemperatureFiles,
  POSSIBLE_C,
} from './import-temperature-files.js';
export { type MergedReadings, mergeReadings, type SourcedReadings } from './merge-readings.js';
export { readImportFiles } from './read-import-files.js';
export { answersToRemember } from './remembered/answers-to-remember.js';
export { forgetting, type RecalledFile, recallAnswers, withRecalled } from './remembered/recall-answers.js';
export { type Remembered, remember } from './remembered/remember.js';
export { type FileKind, isNothing, type RememberedAnswers } from './remembered/remembered-answers.js';
