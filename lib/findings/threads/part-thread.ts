import { analysePart } from '../analysis/analyse-part';
import type { AnalysisPart, AnalysisTask } from '../analysis/types';
import { answerQuestions } from './answer';

answerQuestions<AnalysisTask, AnalysisPart>(analysePart);
