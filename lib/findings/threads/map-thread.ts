import { analyseMap } from '../analysis/analyse-map';
import type { MapAnalysis, MapTask } from '../analysis/types';
import { answerQuestions } from './answer';

answerQuestions<MapTask, MapAnalysis>(analyseMap);
