"""All addresses: the one router of the API, its description, and the phone app."""

from typing import Any

from django.urls import include, path, re_path
from drf_spectacular.views import SpectacularAPIView, SpectacularSwaggerView
from rest_framework.routers import SimpleRouter

from shopapi import pwa, rest
from shopapi.boards.api import BoardViewSet, FacePictureViewSet, ReadingViewSet, ScaleCardView, ShotViewSet
from shopapi.buying.api import BuyingTripViewSet, OfferViewSet
from shopapi.commissions.api import ClientViewSet, CommissionViewSet, PartViewSet, SpeciesView
from shopapi.cuts.api import CutViewSet
from shopapi.dryness.api import DrynessView
from shopapi.finishing.api import BenchEntryViewSet, FinishesView, StepViewSet, SurfacePlanViewSet
from shopapi.labels.api import LabelSheetsView, LabelsView
from shopapi.layouts.api import LayoutViewSet
from shopapi.layouts.outcomes import OutcomeViewSet, WasteView
from shopapi.marks.api import ClearWoodView, MarkViewSet
from shopapi.packets.api import PacketViewSet
from shopapi.sync.api import ChangesView
from shopapi.workings.api import WorkingKindsView, WorkingViewSet, WorkOutView
from shopapi.workshops.api import (
    MemberViewSet,
    PasswordView,
    SessionLinkView,
    SessionView,
    TokenViewSet,
    WorkshopView,
)

router = SimpleRouter()
router.register("members", MemberViewSet)
router.register("tokens", TokenViewSet)
for name, viewset in {
    "clients": ClientViewSet,
    "commissions": CommissionViewSet,
    "parts": PartViewSet,
    "boards": BoardViewSet,
    "readings": ReadingViewSet,
    "shots": ShotViewSet,
    "face-pictures": FacePictureViewSet,
    "marks": MarkViewSet,
    "cuts": CutViewSet,
    "buying-trips": BuyingTripViewSet,
    "offers": OfferViewSet,
    "layouts": LayoutViewSet,
    "outcomes": OutcomeViewSet,
    "surface-plans": SurfacePlanViewSet,
    "steps": StepViewSet,
    "bench-entries": BenchEntryViewSet,
    "packets": PacketViewSet,
    "workings": WorkingViewSet,
}.items():
    router.register(name, viewset, basename=viewset.kind)

api: list[Any] = [
    path("session/", SessionView.as_view(), name="session"),
    path("session/link/", SessionLinkView.as_view(), name="session-link"),
    path("session/password/", PasswordView.as_view(), name="session-password"),
    path("workshop/", WorkshopView.as_view(), name="workshop"),
    path("changes/", ChangesView.as_view(), name="changes"),
    path("scale-card/", ScaleCardView.as_view(), name="scale-card"),
    path("species/", SpeciesView.as_view(), name="species"),
    path("waste/", WasteView.as_view(), name="waste"),
    path("finishes/", FinishesView.as_view(), name="finishes"),
    path("boards/<uuid:pk>/clear/", ClearWoodView.as_view(), name="board-clear"),
    path("boards/<uuid:pk>/dryness/", DrynessView.as_view(), name="board-dryness"),
    path("labels/", LabelsView.as_view(), name="labels"),
    path("labels/sheets/", LabelSheetsView.as_view(), name="label-sheets"),
    path("craft/", WorkingKindsView.as_view(), name="craft"),
    path("craft/<str:key>/", WorkOutView.as_view(), name="craft-work-out"),
    path("schema/", SpectacularAPIView.as_view(), name="schema"),
    path("docs/", SpectacularSwaggerView.as_view(url_name="schema"), name="docs"),
    path("", include(router.urls)),
    re_path(r"^.*$", rest.api_not_found),
]

urlpatterns = [path("api/", include(api)), path("", pwa.shell), path("<path:path>", pwa.shell)]

handler500 = "shopapi.rest.server_error"
