export { BeatPage } from "../../screens/pace/beat-page";
export { FindPage } from "../../screens/pace/find-page";
export { HowPage } from "../../screens/pace/how";
export { PaceScreen } from "../../screens/pace/screen";
export { SteerPage } from "../../screens/pace/steer";
export { TypePage } from "../../screens/pace/type";
export { WantedSpeedPage } from "../../screens/pace/wanted";
export { WaterAheadPage } from "../../screens/tide/page";
