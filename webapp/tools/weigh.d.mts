export declare const budget: number;
export declare const answerBudget: number;
export declare const shellBudget: number;
export declare function weigh(): {
  sent: { name: string; size: number; apart: boolean }[];
  all: number;
  answer: number;
  shell: number;
};
