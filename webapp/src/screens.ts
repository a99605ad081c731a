/** Every page of the app that is not a place itself, by its address. */
import { InvitePage } from "./aboard/invite";
import { AboardPage } from "./aboard/page";
import { PhonePage, PhonesPage } from "./aboard/phones";
import { BoatPage } from "./crew/boat-page";
import { BriefedPage } from "./crew/briefed";
import { BriefingPage } from "./crew/briefing";
import { ChangePage } from "./crew/change-page";
import { CrewGearPage, TroublePage } from "./crew/gear-page";
import { ListPage } from "./crew/list-page";
import { FloatPlanPage } from "./crew/plan-page";
import { RadioPage } from "./crew/radio";
import { BleedPage } from "./fish/bleed";
import { BoxPage } from "./fish/box-page";
import { IcePage } from "./fish/ice-page";
import { JudgePage } from "./fish/judge";
import { KeepingPage } from "./fish/keeping-page";
import { LandPage } from "./fish/land";
import { MeasurePage } from "./fish/measure";
import { ReleasePage } from "./fish/release";
import { RulePage } from "./fish/rule-page";
import { RulesPage, SetPage } from "./fish/rules-page";
import { SlushPage } from "./fish/slush";
import { WeightPage } from "./fish/weight-page";
import type { Kind } from "./gear/gear";
import { kinds } from "./gear/kinds";
import { GearPage, ItemPage, KindPage } from "./gear/pages";
import { TouchesPage } from "./learn/page";
import { CardPage } from "./lines/card";
import { RodPage } from "./lines/detail";
import { DoubtPage } from "./lines/doubt-page";
import { DrailPage } from "./lines/drail";
import { RodRigPage } from "./lines/rod-rig";
import { SlowPage } from "./lines/slow";
import { WantedPage } from "./lines/wanted";
import { WaterPage } from "./lines/water-page";
import { AboutPage, CautionsPage, LockerPage } from "./locker/pages";
import { AddPage, NewPage, TouchPage } from "./notes/add";
import { PastPage } from "./notes/past";
import { RecordPage } from "./notes/record";
import { ToldPage } from "./notes/told";
import { TripPage } from "./notes/trip";
import { UnsentPage } from "./notes/unsent";
import { BeatPage } from "./pace/beat-page";
import { FindPage } from "./pace/find-page";
import { HowPage } from "./pace/how";
import { SteerPage } from "./pace/steer";
import { TypePage } from "./pace/type";
import { WantedSpeedPage } from "./pace/wanted";
import { PlanCardPage } from "./plan/cards";
import { DrailsPage } from "./plan/drails";
import { PlanPage } from "./plan/page";
import { HomePage } from "./ready/home";
import { ReadyPage } from "./ready/page";
import { SounderPage } from "./rise/page";
import type { Screen } from "./shell/screens";
import { TurnPage } from "./turn/page";

export const screens: Screen[] = [
  { path: "lines/rod/:id", show: RodPage },
  { path: "lines/card/:id", show: CardPage },
  { path: "lines/drail/:id", show: DrailPage },
  { path: "lines/slow/:id", show: SlowPage },
  { path: "lines/rig/:id", show: RodRigPage, form: true },
  { path: "lines/turn", show: TurnPage },
  { path: "lines/wanted", show: WantedPage, form: true },
  { path: "lines/touches", show: TouchesPage },
  { path: "lines/plan", show: PlanPage, form: true },
  { path: "lines/plan/:id", show: PlanCardPage },
  { path: "lines/drails", show: DrailsPage, form: true },
  { path: "lines/sounder", show: SounderPage },
  { path: "pace/beat", show: BeatPage },
  { path: "pace/find", show: FindPage },
  { path: "pace/steer", show: SteerPage },
  { path: "pace/type", show: TypePage },
  { path: "pace/wanted", show: WantedSpeedPage },
  { path: "pace/how", show: HowPage },
  { path: "notes/touch", show: TouchPage },
  { path: "notes/add", show: AddPage },
  { path: "notes/new/:id", show: NewPage, form: true },
  { path: "notes/told/:id", show: ToldPage, form: true },
  { path: "notes/record/:id", show: RecordPage, form: true },
  { path: "notes/trip/:id", show: TripPage, form: true },
  { path: "notes/past", show: PastPage },
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
  { path: "crew/radio", show: RadioPage },
  { path: "crew/boat", show: BoatPage, form: true },
  { path: "crew/list/:id", show: ListPage },
  { path: "crew/change/:id", show: ChangePage, form: true },
  { path: "crew/plan", show: FloatPlanPage, form: true },
  { path: "crew/gear", show: CrewGearPage, form: true },
  { path: "crew/trouble/:id", show: TroublePage },
  { path: "aboard", show: AboardPage, form: true },
  { path: "aboard/invite", show: InvitePage, form: true },
  { path: "aboard/phones", show: PhonesPage },
  { path: "aboard/phone/:id", show: PhonePage },
  { path: "gear", show: GearPage },
  ...(Object.keys(kinds) as Kind[]).map((kind) => ({
    path: `gear/${kind}/:id`,
    show: ItemPage(kind),
    form: true,
  })),
  { path: "gear/:id", show: KindPage },
  { path: "locker", show: LockerPage },
  { path: "locker/ready", show: ReadyPage },
  { path: "locker/home", show: HomePage },
  { path: "locker/water", show: WaterPage, form: true },
  { path: "locker/doubt", show: DoubtPage, form: true },
  { path: "locker/cautions", show: CautionsPage },
  { path: "locker/about", show: AboutPage },
];
