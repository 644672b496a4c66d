import { Cells } from '../operands.js';
import { FormulaError, toCondition } from '../values.js';
import { conditionsIn, type FormulaFunction, type Operand, single } from './describe.js';

function ofConditions(work: (conditions: boolean[]) => boolean): FormulaFunction {
  return {
    takes: ['cells'],
    work: (operands) => {
      const conditions = conditionsIn(operands);
      return conditions instanceof FormulaError ? conditions : work(conditions);
    },
  };
}

const about = (work: (operand: Operand | undefined) => boolean): FormulaFunction => ({
  takes: ['cells'],
  work: ([operand]) => work(operand),
});

export const LOGIC: Record<string, FormulaFunction> = {
  AND: ofConditions((conditions) => conditions.every((holds) => holds)),
  OR: ofConditions((conditions) => conditions.some((holds) => holds)),
  NOT: {
    takes: ['value'],
    work: ([operand]) => {
      const condition = toCondition(single(operand));
      return condition instanceof FormulaError ? condition : !condition;
    },
  },
  ISNUMBER: about((operand) => typeof single(operand) === 'number'),
  ISTEXT: about((operand) => typeof single(operand) === 'string'),
  ISBLANK: about((operand) => operand instanceof Cells && single(operand) === null),
  ISERROR: about((operand) => single(operand) instanceof FormulaError),
  NA: { takes: ['value'], work: () => FormulaError.notAvailable },
};
