import { HEATING_FUNCTIONS } from '../../src/heating/described.js';
import { describeTwoFaces } from '../functions/two-faces.js';
import { heatingArguments } from './arbitraries.js';

describeTwoFaces('heating functions', HEATING_FUNCTIONS, heatingArguments);
