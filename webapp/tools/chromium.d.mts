export declare const chromiumPath: string;
export declare const asked: string[];
