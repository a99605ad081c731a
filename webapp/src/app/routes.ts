/** Every page of the app that is not a place itself, by its address. */

import type { AppPage } from "../base/shell/pages";
import { BoatPage } from "../screens/crew/boat-page";
import { BriefedPage } from "../screens/crew/briefed";
import { BriefingPage } from "../screens/crew/briefing";
import { ChangePage } from "../screens/crew/change-page";
import { FloatPlanPage } from "../screens/crew/floatplan-page";
import { CrewGearPage, TroublePage } from "../screens/crew/gear-page";
import { OverboardPage } from "../screens/crew/help/overboard";
import { HelpList, HelpPage } from "../screens/crew/help/page";
import { ListPage } from "../screens/crew/list-page";
import { RadioPage } from "../screens/crew/radio";
import { WeatherPage } from "../screens/crew/weather";
import { BleedPage } from "../screens/fish/catch/bleed";
import { JudgePage } from "../screens/fish/catch/judge";
import { LandPage } from "../screens/fish/catch/land";
import { MeasurePage } from "../screens/fish/catch/measure";
import { ReleasePage } from "../screens/fish/catch/release";
import { SlushPage } from "../screens/fish/catch/slush";
import { BoxPage } from "../screens/fish/ice/box-page";
import { IcePage } from "../screens/fish/ice/ice-page";
import { KeepingPage } from "../screens/fish/ice/keeping-page";
import { RulePage } from "../screens/fish/rules/rule-page";
import { RulesPage, SetPage } from "../screens/fish/rules/rules-page";
import { WeightPage } from "../screens/fish/weight-page";
import { TouchesPage } from "../screens/lines/calibrate/page";
import { RodPage } from "../screens/lines/detail";
import { InstrumentsPage } from "../screens/lines/heard/page";
import { PlanCardPage } from "../screens/lines/plan/cards";
import { DrailsPage } from "../screens/lines/plan/drails";
import { PlanPage } from "../screens/lines/plan/page";
import { RisePage } from "../screens/lines/rise/page";
import { CardPage } from "../screens/lines/rod/card";
import { DrailPage } from "../screens/lines/rod/drail";
import { RodRigPage } from "../screens/lines/rod/rig";
import { SlowPage } from "../screens/lines/rod/slow";
import { StartPage } from "../screens/lines/start/page";
import { TeachPage } from "../screens/lines/teach/page";
import { PullPage } from "../screens/lines/teach/pull";
import { RightPage } from "../screens/lines/teach/right";
import { SightPage } from "../screens/lines/teach/sight";
import { TurnPage } from "../screens/lines/turn/page";
import { WantedPage } from "../screens/lines/wanted";
import { DoubtPage } from "../screens/locker/doubt-page";
import { InvitePage } from "../screens/locker/enrol/invite";
import { EnrolPage } from "../screens/locker/enrol/page";
import { PhonePage, PhonesPage } from "../screens/locker/enrol/phones";
import { GearPage, ItemPage, KindPage } from "../screens/locker/gear/pages";
import { AboutPage, CautionsPage, LockerPage } from "../screens/locker/pages";
import { InstallPage } from "../screens/locker/ready/install";
import { ReadyPage } from "../screens/locker/ready/page";
import { WaterPage } from "../screens/locker/water-page";
import { AddPage, NewPage, TouchPage } from "../screens/notes/add";
import { BackPage } from "../screens/notes/day/back";
import { DayPage } from "../screens/notes/day/page";
import { KeepsakePage } from "../screens/notes/out/keepsake";
import { PapersPage } from "../screens/notes/out/papers";
import { PastPage } from "../screens/notes/past";
import { PhotoOfPage } from "../screens/notes/photo";
import { RecordPage } from "../screens/notes/record";
import { SeasonPage } from "../screens/notes/season/page";
import { ToldPage } from "../screens/notes/told";
import { TripPage } from "../screens/notes/trip";
import { UnsentPage } from "../screens/notes/unsent";
import { BeatPage } from "../screens/pace/beat-page";
import { FindPage } from "../screens/pace/find-page";
import { HowPage } from "../screens/pace/how";
import { SteerPage } from "../screens/pace/steer";
import { TypePage } from "../screens/pace/type";
import { WantedSpeedPage } from "../screens/pace/wanted";
import { WaterAheadPage } from "../screens/tide/page";
import type { Kind } from "../state/gear/gear";
import { kinds } from "../state/gear/kinds";

export const routes: AppPage[] = [
  { path: "lines/rod/:id", show: RodPage },
  { path: "lines/card/:id", show: CardPage },
  { path: "lines/drail/:id", show: DrailPage },
  { path: "lines/slow/:id", show: SlowPage },
  { path: "lines/rig/:id", show: RodRigPage, form: true },
  { path: "lines/turn", show: TurnPage },
  { path: "lines/wanted", show: WantedPage, form: true },
  { path: "lines/touches", show: TouchesPage },
  { path: "lines/teach", show: TeachPage, form: true },
  { path: "lines/sight/:id", show: SightPage, form: true },
  { path: "lines/pull/:id", show: PullPage, form: true },
  { path: "lines/right", show: RightPage },
  { path: "lines/plan", show: PlanPage, form: true },
  { path: "lines/plan/:id", show: PlanCardPage },
  { path: "lines/drails", show: DrailsPage, form: true },
  { path: "lines/rise", show: RisePage },
  { path: "lines/instruments", show: InstrumentsPage, form: true },
  { path: "start", show: StartPage },
  { path: "pace/beat", show: BeatPage },
  { path: "pace/find", show: FindPage },
  { path: "pace/steer", show: SteerPage },
  { path: "pace/type", show: TypePage },
  { path: "pace/wanted", show: WantedSpeedPage },
  { path: "pace/how", show: HowPage },
  { path: "pace/water", show: WaterAheadPage },
  { path: "notes/touch", show: TouchPage },
  { path: "notes/add", show: AddPage },
  { path: "notes/new/:id", show: NewPage, form: true },
  { path: "notes/photo/:id", show: PhotoOfPage, form: true },
  { path: "notes/told/:id", show: ToldPage, form: true },
  { path: "notes/record/:id", show: RecordPage, form: true },
  { path: "notes/trip/:id", show: TripPage, form: true },
  { path: "notes/past", show: PastPage },
  { path: "notes/day/:id", show: DayPage },
  { path: "notes/keep/:id", show: KeepsakePage, form: true },
  { path: "notes/papers", show: PapersPage },
  { path: "notes/back/:id", show: BackPage },
  { path: "notes/season", show: SeasonPage },
  { path: "notes/unsent", show: UnsentPage },
  { path: "fish/land/:id", show: LandPage },
  { path: "fish/measure/:id", show: MeasurePage, form: true },
  { path: "fish/judge/:id", show: JudgePage },
  { path: "fish/bleed/:id", show: BleedPage },
  { path: "fish/slush/:id", show: SlushPage },
  { path: "fish/release/:id", show: ReleasePage },
  { path: "fish/rules", show: RulesPage },
  { path: "fish/set/:id", show: SetPage, form: true },
  { path: "fish/rule/:id", show: RulePage, form: true },
  { path: "fish/ice", show: IcePage, form: true },
  { path: "fish/box/:id", show: BoxPage, form: true },
  { path: "fish/weight", show: WeightPage },
  { path: "fish/keeping", show: KeepingPage, form: true },
  { path: "crew/briefing/:id", show: BriefingPage },
  { path: "crew/briefed", show: BriefedPage, form: true },
  { path: "crew/weather", show: WeatherPage, form: true },
  { path: "crew/radio", show: RadioPage },
  { path: "help", show: HelpList },
  { path: "help/:id", show: HelpPage },
  { path: "overboard", show: OverboardPage },
  { path: "overboard/:id", show: OverboardPage },
  { path: "crew/boat", show: BoatPage, form: true },
  { path: "crew/list/:id", show: ListPage },
  { path: "crew/change/:id", show: ChangePage, form: true },
  { path: "crew/floatplan", show: FloatPlanPage, form: true },
  { path: "crew/gear", show: CrewGearPage, form: true },
  { path: "crew/trouble/:id", show: TroublePage },
  { path: "enrol", show: EnrolPage, form: true },
  { path: "enrol/invite", show: InvitePage, form: true },
  { path: "enrol/phones", show: PhonesPage },
  { path: "enrol/phone/:id", show: PhonePage },
  { path: "gear", show: GearPage },
  ...(Object.keys(kinds) as Kind[]).map((kind) => ({
    path: `gear/${kind}/:id`,
    show: ItemPage(kind),
    form: true,
  })),
  { path: "gear/:id", show: KindPage },
  { path: "locker", show: LockerPage },
  { path: "locker/ready", show: ReadyPage },
  { path: "locker/ready/:id", show: ReadyPage },
  { path: "locker/install", show: InstallPage },
  { path: "locker/water", show: WaterPage, form: true },
  { path: "locker/doubt", show: DoubtPage, form: true },
  { path: "locker/cautions", show: CautionsPage },
  { path: "locker/about", show: AboutPage },
];
