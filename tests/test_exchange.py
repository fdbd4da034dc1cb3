"""Whatever stops a build, one whole site is in its place, and nothing of the build is left beside it or elsewhere."""

from __future__ import annotations

import errno
import hashlib
import os
import random
import shutil
import signal
import subprocess
import sys
import textwrap
import time
import traceback
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from mkdocs.exceptions import Abort

from generator import exchange
from generator.exchange import Refused, TakenSite, leave, see, take
from generator.plugin import StudioHandbook
from tests.conftest import ROOT, THREE_JOBS, copy_project, mkdocs
from tests.small_site import beside, build, fail, read, write


@pytest.fixture
def site(tmp_path: Path) -> Path:
    made = tmp_path / "site"
    write(made, "old")
    return made


class TestAGoodBuild:
    def test_takes_the_place_of_the_old_one(self, site: Path) -> None:
        build(site)
        assert read(site) == "new" and beside(site) == []

    def test_needs_no_old_one_and_no_folder_around_it(self, tmp_path: Path) -> None:
        build(tmp_path / "not" / "yet" / "site")
        assert read(tmp_path / "not" / "yet" / "site") == "new"

    def test_takes_the_place_of_an_empty_folder(self, tmp_path: Path) -> None:
        (tmp_path / "site").mkdir()
        build(tmp_path / "site")
        assert read(tmp_path / "site") == "new" and beside(tmp_path / "site") == []

    def test_follows_a_link_and_leaves_it(self, site: Path, tmp_path: Path) -> None:
        (tmp_path / "links").mkdir()
        link = tmp_path / "links" / "site"
        link.symlink_to(site)
        build(link)
        assert link.is_symlink() and read(site) == "new"
        assert beside(link) == beside(site) == []

    def test_follows_a_link_to_what_is_not_there_yet(self, tmp_path: Path) -> None:
        (tmp_path / "site").symlink_to("real")
        build(tmp_path / "site")
        assert (tmp_path / "site").is_symlink() and read(tmp_path / "real") == "new"

    def test_keeps_what_is_hidden_in_the_old_one_and_who_may_read_it(self, site: Path) -> None:
        (site / ".git").mkdir()
        (site / ".git" / "HEAD").write_text("ref: refs/heads/pages", "utf-8")
        (site / ".nojekyll").touch()
        site.chmod(0o750)
        build(site)
        assert (site / ".git" / "HEAD").read_text("utf-8") == "ref: refs/heads/pages"
        assert (site / ".nojekyll").is_file()
        assert site.stat().st_mode & 0o777 == 0o750

    def test_is_made_where_nobody_else_reads(self, site: Path) -> None:
        place, _ = take(site)
        assert place.work.parent == site.parent
        assert place.work.stat().st_mode & 0o077 == 0
        leave(place)


def build_until(site: Path, change: int) -> list[str]:
    """The changes of the file system that a build makes; it is killed before the nth of them."""
    changes: list[str] = []

    def counted(name: str, doing: Callable[..., object]) -> Callable[..., object]:
        def run(*arguments: Any, **more: Any) -> object:
            if len(changes) == change:
                os.kill(os.getpid(), signal.SIGKILL)
            changes.append(name)
            return doing(*arguments, **more)

        return run

    place, _ = exchange.take(site)
    write(place.new, "new")
    for name in ("rename", "unlink", "rmdir", "mkdir"):
        setattr(os, name, counted(name, getattr(os, name)))
    exchange.exchange(place)
    exchange.leave(place)
    return changes


def killed_at(site: Path, change: int) -> list[str] | None:
    """The changes of a whole build, or None when it was killed before the one that is asked for.

    In a copy of this process: to start one anew takes longer than the build.
    """
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.write(writing, " ".join(build_until(site, change)).encode())
            os._exit(0)
        except BaseException:
            os.write(writing, traceback.format_exc().encode())
        finally:
            os._exit(1)
    os.close(writing)
    with os.fdopen(reading) as told:
        said = told.read()
    status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    assert status in {0, -signal.SIGKILL}, said
    return said.split() if status == 0 else None


@pytest.mark.skipif(sys.platform == "win32", reason="no process can be killed like this on Windows")
class TestAKill:
    # At least as many as there are: `test_is_tried_at_every_change` sees that none is left out.
    CHANGES = 16

    @pytest.mark.parametrize("change", range(CHANGES))
    def test_costs_no_site_and_leaves_nothing(self, site: Path, change: int) -> None:
        if killed_at(site, change) is not None:
            assert change > 2 and read(site) == "new" and beside(site) == []
            return
        assert beside(site) != []
        place, put_back = take(site)
        assert read(site) in {"old", "new"}
        assert put_back == (change == 2)
        leave(place)
        assert read(site) in {"old", "new"} and beside(site) == []
        build(site, "next")
        assert read(site) == "next" and beside(site) == []

    def test_behind_a_link_is_put_right(self, site: Path, tmp_path: Path) -> None:
        link = tmp_path / "link"
        link.symlink_to(site)
        killed_at(link, 2)
        assert link.is_symlink() and not link.exists()
        fail(link)
        assert read(site) == "new" and beside(site) == []

    @pytest.mark.parametrize("change", range(3))
    def test_of_the_first_build_leaves_no_half_a_site(self, tmp_path: Path, change: int) -> None:
        killed_at(tmp_path / "site", change)
        fail(tmp_path / "site")
        assert read(tmp_path / "site") in {None, "new"} and beside(tmp_path / "site") == []

    def test_is_tried_at_every_change(self, site: Path) -> None:
        changes = killed_at(site, 1000)
        assert changes is not None and len(changes) <= self.CHANGES
        assert changes[:3] == ["rename"] * 3, "the new one is ready, the old one aside, the new one in its place"

    def test_of_whoever_had_put_a_site_aside_and_no_more(self, site: Path) -> None:
        """The new one is not ready: the old one comes back."""
        site.rename(site.with_name(".site.old"))
        fail(site)
        assert read(site) == "old" and beside(site) == []


class TestTwoBuilds:
    def test_the_second_is_refused_and_touches_nothing(self, site: Path) -> None:
        first, _ = take(site)
        write(first.new, "first")
        for _ in range(2):
            with pytest.raises(Refused, match=r"another build is writing this site\. Wait until it has ended"):
                take(site)
        exchange.exchange(first)
        leave(first)
        assert read(site) == "first" and beside(site) == []
        build(site, "second")
        assert read(site) == "second"

    def test_through_a_link_it_is_the_same_site(self, site: Path, tmp_path: Path) -> None:
        (tmp_path / "link").symlink_to(site)
        first, _ = take(site)
        with pytest.raises(Refused, match="another build"):
            take(tmp_path / "link")
        leave(first)

    def test_of_two_sites_go_on_beside_each_other(self, site: Path) -> None:
        first, _ = take(site)
        build(site.with_name("other"))
        assert read(site.with_name("other")) == "new"
        leave(first)

    def test_another_users_lock_is_named(self, site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        lock = site.with_name(".site.lock")
        lock.touch()

        def denied(*_: object, **__: object) -> None:
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(lock))

        monkeypatch.setattr(exchange.FileLock, "acquire", denied)
        with pytest.raises(Refused, match=r"another user builds this site, or left .*\.site\.lock"):
            take(site)
        assert read(site) == "old"

    def test_leaving_twice_does_not_free_the_place_of_another(self, site: Path) -> None:
        first, _ = take(site)
        leave(first)
        second, _ = take(site)
        leave(first)
        with pytest.raises(Refused, match="another build"):
            take(site)
        leave(second)


def foreign(folder: Path) -> None:
    (folder / "site").mkdir()
    (folder / "site" / "letters.txt").write_text("mine", "utf-8")


def a_file(folder: Path) -> None:
    (folder / "site").write_text("mine", "utf-8")


def a_loop(folder: Path) -> None:
    (folder / "site").symlink_to("other")
    (folder / "other").symlink_to("site")


def a_link_far_away(folder: Path) -> None:
    (folder / "site").symlink_to(folder / "drive" / "site")


def a_link_to_a_file(folder: Path) -> None:
    (folder / "mine").write_text("mine", "utf-8")
    (folder / "site").symlink_to("mine")


def a_locked_folder_of_that_name(folder: Path) -> None:
    (folder / ".site.lock").mkdir()


def tree(folder: Path) -> dict[str, str]:
    """Each file and folder, and what it holds or leads to."""
    found = {}
    for path in folder.rglob("*"):
        what = str(path.readlink()) if path.is_symlink() else path.read_text("utf-8") if path.is_file() else "folder"
        found[path.relative_to(folder).as_posix()] = what
    return found


class TestRefusedBeforeAnyWork:
    CASES: tuple[tuple[Callable[[Path], None], str], ...] = (
        (foreign, r"a folder with other files and no index\.html.* not touched. Move it away"),
        (a_file, "this is a file"),
        (a_loop, "A link leads in a circle"),
        (a_link_far_away, r"is a link to .* there is no folder .*drive\. Attach its disk, or mend the link"),
        (a_link_to_a_file, "this is a file"),
        (a_locked_folder_of_that_name, r"\.site\.lock.* A folder is where a file has to be"),
    )

    @pytest.mark.parametrize(("make", "said"), CASES)
    def test_and_nothing_is_touched(self, tmp_path: Path, make: Callable[[Path], None], said: str) -> None:
        make(tmp_path)
        before = tree(tmp_path)
        with pytest.raises(Refused, match=said):
            take(tmp_path / "site")
        assert tree(tmp_path) == before

    def test_a_file_around_it(self, tmp_path: Path) -> None:
        (tmp_path / "file").write_text("mine", "utf-8")
        for below in ("file/site", "file/deeper/site"):
            with pytest.raises(Refused, match="A file is where a folder has to be"):
                take(tmp_path / below)
        assert tree(tmp_path) == {"file": "mine"}

    def test_a_loop_around_it(self, tmp_path: Path) -> None:
        a_loop(tmp_path)
        with pytest.raises(Refused, match=r"A link leads in a circle|A file is where a folder"):
            take(tmp_path / "site" / "below")

    def test_the_site_of_somebody_else(self, site: Path) -> None:
        """A front page alone makes no handbook: a homepage in that folder would be lost."""
        (site / "assets" / "handbook.css").unlink()
        for ask in (take, see):
            with pytest.raises(Refused, match=r"the site of somebody else: it has no assets/handbook\.css"):
                ask(site)
        assert (site / "index.html").read_text("utf-8") == "old" and beside(site) == []

    def test_what_the_site_is_made_from(self, tmp_path: Path) -> None:
        (tmp_path / "content").mkdir()
        (tmp_path / "content" / "index.html").touch()
        (tmp_path / "link").symlink_to(".")
        for asked in (tmp_path, tmp_path / "content", tmp_path / "link", Path("/")):
            with pytest.raises(Refused, match=r"the site would replace|a whole disk"):
                take(asked, [tmp_path / "content"])
        assert sorted(tree(tmp_path)) == ["content", "content/index.html", "link"]

    def test_the_last_site_is_not_deleted_while_another_folder_has_its_place(self, site: Path) -> None:
        site.rename(site.with_name(".site.old"))
        foreign(site.parent)
        for _ in range(2):
            with pytest.raises(Refused, match=r"no index\.html.*; the last whole site is .*\.site\.old"):
                take(site)
        assert read(site.with_name(".site.old")) == "old"

    def test_what_cannot_be_moved(self, site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        """Some systems keep a folder in its place and tell it only who tries (layers of a container)."""

        def held(*names: object) -> None:
            raise OSError(errno.EXDEV, os.strerror(errno.EXDEV))

        with monkeypatch.context() as patched:
            patched.setattr(os, "rename", held)
            with pytest.raises(Refused, match="the system keeps this folder where it is"):
                take(site)
        assert read(site) == "old" and beside(site) == []

    def test_a_folder_that_cannot_be_written(self, site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr(os, "access", lambda *_, **__: False)
        with pytest.raises(Refused, match="You may not write there"):
            take(site)
        monkeypatch.undo()
        assert read(site) == "old" and beside(site) == []


class TestNamesOfTheBuildThatAreTaken:
    @pytest.mark.parametrize("name", [".site.next", ".site.ready", ".site.old"])
    def test_a_link_is_removed_and_never_followed(self, site: Path, name: str) -> None:
        mine = site.with_name("mine")
        write(mine, "mine")
        site.with_name(name).symlink_to(mine)
        build(site)
        assert read(site) == "new" and read(mine) == "mine" and beside(site) == []

    @pytest.mark.parametrize("name", [".site.next", ".site.ready", ".site.old"])
    def test_a_file_is_removed(self, site: Path, name: str) -> None:
        site.with_name(name).touch()
        build(site)
        assert read(site) == "new" and beside(site) == []

    def test_a_link_in_place_of_a_finished_site_is_not_put_up(self, tmp_path: Path) -> None:
        write(tmp_path / "mine", "mine")
        (tmp_path / ".site.ready").symlink_to("mine")
        fail(tmp_path / "site")
        assert read(tmp_path / "site") is None and read(tmp_path / "mine") == "mine"

    def test_a_lock_that_is_a_link_writes_nothing_elsewhere(self, site: Path) -> None:
        mine = site.with_name("mine")
        mine.write_text("mine", "utf-8")
        site.with_name(".site.lock").symlink_to(mine)
        with pytest.raises(Refused, match=r"\.site\.lock"):
            take(site)
        assert mine.read_text("utf-8") == "mine" and read(site) == "old"


class TestAnExchangeThatFails:
    @pytest.fixture
    def place(self, site: Path) -> TakenSite:
        place, _ = take(site)
        write(place.new, "new")
        return place

    def test_a_new_site_without_a_front_page_is_never_put_up(self, place: TakenSite) -> None:
        (place.new / "index.html").unlink()
        with pytest.raises(Refused, match=r"the new site has no index\.html: write index\.md among the pages"):
            exchange.exchange(place)
        leave(place)
        assert read(place.site) == "old" and beside(place.site) == []

    def test_what_came_in_its_place_meanwhile_is_not_moved(self, place: TakenSite) -> None:
        shutil.rmtree(place.site)
        foreign(place.site.parent)
        with pytest.raises(Refused, match=r"no index\.html"):
            exchange.exchange(place)
        leave(place)
        assert tree(place.site) == {"letters.txt": "mine"}

    @pytest.mark.parametrize("nth", range(3))
    def test_at_a_rename(self, place: TakenSite, nth: int, monkeypatch: pytest.MonkeyPatch) -> None:
        rename, calls = os.rename, []

        def refused(*names: str) -> None:
            calls.append(names)
            if len(calls) == nth + 1:
                raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), *names)
            rename(*names)

        with monkeypatch.context() as patched:
            patched.setattr(os, "rename", refused)
            with pytest.raises(Refused, match="The disk is full: make room"):
                exchange.exchange(place)
        assert read(place.site) == "old"
        leave(place)
        assert read(place.site) == "old" and beside(place.site) == []


class TestAsAPlainUser:
    TRY = """
import sys
from pathlib import Path
from generator.exchange import Refused
from tests.small_site import build, read
try:
    build(Path(sys.argv[1]))
except Refused as refused:
    print(refused)
"""

    @pytest.fixture
    def tried(self, site: Path) -> Callable[[], str]:
        """What a build says whom permissions stop, as they do not stop root."""
        plain: list[str] = []
        if hasattr(os, "geteuid") and os.geteuid() == 0:
            if shutil.which("setpriv") is None:
                pytest.skip("permissions do not stop root, and there is no `setpriv` to do without its rights")
            plain = ["setpriv", "--bounding-set=-all", "--inh-caps=-all"]

        def run() -> str:
            command = [*plain, sys.executable, "-c", self.TRY, str(site)]
            done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=60)
            assert done.returncode == 0, done.stderr
            return done.stdout

        return run

    @pytest.mark.skipif(sys.platform == "win32", reason="Windows has other permissions")
    @pytest.mark.parametrize("around", [False, True], ids=["the site", "the folder around it"])
    def test_what_may_not_be_written_is_refused(self, site: Path, tried: Callable[[], str], around: bool) -> None:
        locked = site.parent if around else site
        locked.chmod(0o555)
        said = tried()
        locked.chmod(0o755)
        assert "cannot be written" in said and "You may not write there" in said
        assert read(site) == "old" and beside(site) == []

    @pytest.mark.skipif(sys.platform == "win32", reason="Windows has other permissions")
    def test_a_folder_in_the_old_site_that_is_read_only_does_not_stay(
        self, site: Path, tried: Callable[[], str]
    ) -> None:
        (site / "sheets").chmod(0o555)
        (site / "search").chmod(0o000)
        assert tried() == ""
        assert read(site) == "new" and beside(site) == []


class TestWhatTheSystemRefuses:
    """Disks of a test's own, in a name space of its own: nothing is mounted for anyone else."""

    @pytest.fixture
    def mounted(self, tmp_path: Path) -> Callable[..., str]:
        """Run a shell script where mounting is allowed, in the folder of the test."""
        enter = ["unshare", "-m"] if hasattr(os, "geteuid") and os.geteuid() == 0 else ["unshare", "-rm"]
        (tmp_path / "disk").mkdir()
        try:
            tried = subprocess.run(
                [*enter, "mount", "-t", "tmpfs", "tmpfs", str(tmp_path / "disk")], capture_output=True, timeout=20
            )
        except FileNotFoundError:
            pytest.skip("there is no `unshare` on this machine to mount a disk for one test")
        if tried.returncode:
            pytest.skip("this account may not mount a disk, not even for itself")

        def run(script: str, **more: str) -> str:
            environment = {**os.environ, "PYTHON": sys.executable, "PYTHONPATH": str(ROOT), **more}
            command = [*enter, "sh", "-euc", textwrap.dedent(script)]
            done = subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, text=True, timeout=120)
            assert done.returncode == 0, done.stderr
            assert "Traceback" not in done.stdout + done.stderr
            return done.stdout + done.stderr

        return run

    TRY = """
        tried() { "$PYTHON" -c '
        import sys
        from pathlib import Path
        from generator.exchange import Refused
        from tests.small_site import build, read
        site = Path(sys.argv[1])
        try:
            build(site)
        except Refused as refused:
            print("refused", refused)
        print("says", read(site))
        ' "$1"; }
        """

    def tried(self, run: Callable[..., str], script: str) -> str:
        return run(textwrap.dedent(self.TRY) + script)

    @pytest.mark.parametrize("mount", ["mount -t tmpfs tmpfs site", "mount --bind disk site"])
    def test_a_mount_is_refused(self, site: Path, mounted: Callable[..., str], mount: str) -> None:
        write(site.with_name("copy"), "old")
        said = self.tried(mounted, f"{mount}\ncp -r copy/. site\ntried site\nls -A")
        assert "refused" in said and "mount" in said and "says old" in said
        assert ".site" not in said.partition("says old")[2]

    def test_a_disk_that_cannot_be_written_is_refused(self, mounted: Callable[..., str], tmp_path: Path) -> None:
        write(tmp_path / "copy", "old")
        script = "mount -t tmpfs tmpfs disk\ncp -r copy disk/site\nmount -o remount,ro disk\ntried disk/site"
        said = self.tried(mounted, script)
        assert "refused" in said and "It is on a disk that cannot be written" in said and "says old" in said

    def test_a_full_disk_keeps_the_old_site(self, mounted: Callable[..., str], tmp_path: Path) -> None:
        """As MkDocs meets it: the old site is whole, and the next build works."""
        project = tmp_path / "project"
        project.mkdir()
        without_jobs(project)
        write(tmp_path / "copy", "old")
        script = """
            mount -t tmpfs -o size=3m tmpfs disk
            cp -r copy disk/site
            (cd project; "$PYTHON" -m mkdocs build -q -d ../disk/site && exit 1 || echo "status $?")
            ls -A disk
            "$PYTHON" -c 'from pathlib import Path; from tests.small_site import read
            assert read(Path("disk/site")) == "old"'
            tried disk/site
            ls -A disk
            """
        said = self.tried(mounted, textwrap.dedent(script))
        assert "status 1" in said and "The disk is full: make room" in said and "The site stays as it was" in said
        assert "status 1\nsite\nsays new\nsite\n" in said


def without_jobs(folder: Path) -> Path:
    """A project that is built quickly."""
    copy_project(folder)
    for job in (folder / "content" / "jobs").iterdir():
        job.unlink()
    return folder


def start(folder: Path, **more: str) -> subprocess.Popen[str]:
    command = [sys.executable, "-m", "mkdocs", "build", "-q"]
    environment = {**os.environ, "SOURCE_DATE_EPOCH": "1810080000", **more}
    return subprocess.Popen(command, cwd=folder, env=environment, stderr=subprocess.PIPE, text=True)


def wait_for(path: Path, running: subprocess.Popen[str]) -> None:
    while not path.exists():
        assert running.poll() is None, running.communicate()
        time.sleep(0.02)


class TestMkDocs:
    def test_of_two_builds_at_once_the_second_stops_and_the_first_is_whole(self, tmp_path: Path) -> None:
        folder = without_jobs(tmp_path)
        first = start(folder)
        wait_for(folder / ".site.lock", first)
        second = mkdocs(folder, "build", "-q")
        assert second.returncode == 1
        assert "another build is writing this site" in second.stderr and "Traceback" not in second.stderr
        assert first.wait(timeout=120) == 0
        assert len(list((folder / "site").rglob("*.html"))) > 100 and beside(folder / "site") == []

    @pytest.mark.skipif(sys.platform == "win32", reason="Windows has no SIGKILL")
    def test_what_a_killed_build_leaves_is_gone_after_the_next_start(self, tmp_path: Path) -> None:
        folder, temp = copy_project(tmp_path, THREE_JOBS), tmp_path / "temp"
        temp.mkdir()
        write(folder / "site", "old")
        build = start(folder, TMPDIR=str(temp))
        wait_for(folder / ".site.next" / "sheets" / "tide-table.html", build)
        build.kill()
        build.communicate(timeout=60)
        assert list(temp.iterdir()) == [] and beside(folder / "site") != []
        (folder / "content" / "studio.yml").write_text("name: [", "utf-8")
        failed = mkdocs(folder, "build", "-q")
        assert failed.returncode == 1 and "the site stays as it was" in failed.stderr
        assert read(folder / "site") == "old" and beside(folder / "site") == []

    def test_a_foreign_folder_is_refused_without_a_traceback(self, tmp_path: Path) -> None:
        folder = copy_project(tmp_path, THREE_JOBS)
        foreign(folder)
        built = mkdocs(folder, "build", "-q")
        assert built.returncode == 1
        assert "no index.html" in built.stderr and "Nothing was built" in built.stderr
        assert "Traceback" not in built.stderr
        assert tree(folder / "site") == {"letters.txt": "mine"} and beside(folder / "site") == []

    @pytest.mark.skipif(sys.platform == "win32", reason="Windows sets no limit to the size of files")
    @pytest.mark.parametrize(("kilobytes", "jobs"), [(4, True), (100, False)], ids=["in our files", "in MkDocs"])
    def test_a_file_that_cannot_be_written_is_told_and_costs_nothing(
        self, tmp_path: Path, kilobytes: int, jobs: bool
    ) -> None:
        import resource

        folder = copy_project(tmp_path, THREE_JOBS) if jobs else without_jobs(tmp_path)
        write(folder / "site", "old")
        built = subprocess.run(
            [sys.executable, "-m", "mkdocs", "build", "-q"],
            cwd=folder,
            capture_output=True,
            text=True,
            timeout=120,
            preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (kilobytes * 1024,) * 2),
        )
        assert built.returncode == 1
        assert os.strerror(errno.EFBIG) in built.stderr and "The site stays as it was" in built.stderr
        assert "Traceback" not in built.stderr and "internal error" not in built.stderr
        assert read(folder / "site") == "old" and beside(folder / "site") == []

    def test_a_server_goes_on_when_the_disk_is_full(self) -> None:
        """MkDocs prints a traceback of what is no Abort and goes on."""
        with pytest.raises(Abort):
            StudioHandbook().on_build_error(error=OSError(errno.ENOSPC, os.strerror(errno.ENOSPC)))


@pytest.mark.nightly
@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no SIGKILL")
def test_sixty_kills_at_random_moments(tmp_path: Path) -> None:
    """`python -m pytest -m nightly -n 0`; the seed is printed and read again from KILL_SEED."""
    folder, temp = copy_project(tmp_path), tmp_path / "temp"
    temp.mkdir()
    for job in sorted((folder / "content" / "jobs").iterdir())[3:]:
        job.unlink()
    seed = os.environ.get("KILL_SEED") or str(time.time_ns())
    print(f"KILL_SEED={seed}")  # noqa: T201
    chance = random.Random(seed)

    def whole() -> dict[str, str]:
        site = folder / "site"
        return {str(p.relative_to(site)): hashlib.sha256(p.read_bytes()).hexdigest() for p in site.rglob("*.*")}

    began = time.monotonic()
    assert start(folder, TMPDIR=str(temp)).wait(timeout=300) == 0
    takes, good = time.monotonic() - began, whole()
    killed = 0
    for _ in range(60):
        build = start(folder, TMPDIR=str(temp))
        # Half of them late: there the folders are exchanged.
        time.sleep(takes * chance.choice([chance.random(), chance.uniform(0.85, 1.05)]))
        build.kill()
        build.communicate(timeout=60)
        killed += build.returncode != 0
        fail(folder / "site")
        assert whole() == good and beside(folder / "site") == [] and list(temp.iterdir()) == []
    assert killed > 20
