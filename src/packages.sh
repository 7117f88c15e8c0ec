# SPDX-License-Identifier: MIT
# The Debian packages that Rigwright needs, and how to get those that are missing. Sourced, not run.
# The one list of packages: src/run.sh takes the first group, tests/run.sh both.

# GTK draws its symbolic icons through librsvg2-common, which nothing else pulls in.
packages_build='gcc libc6-dev meson ninja-build pkg-config gettext libgtk-4-dev libjson-glib-dev librsvg2-common'

# What the tests compare with (igraph, NetworkX, the kernel's bridge, linuxptp, GStreamer, poppler), the
# display that they run on, and what the lint checks call.
packages_test='libigraph-dev python3 python3-networkx iproute2 linuxptp strace procps
  gstreamer1.0-tools gstreamer1.0-plugins-base gstreamer1.0-plugins-good
  xvfb xauth xdotool imagemagick poppler-utils python3-gi gir1.2-poppler-0.18 dbus fonts-dejavu-core
  yelp-tools desktop-file-utils appstream appstream-util libxml2-utils locales shared-mime-info man-db groff-base'

# need PACKAGE…: installs those that are missing; says which, and fails, where it may not.
need ()
{
  missing=
  for package in "$@"
  do
    case $(dpkg-query -W -f='${Status}' "$package" 2>/dev/null) in
      'install ok installed') ;;
      *) missing="$missing $package" ;;
    esac
  done
  [ -n "$missing" ] || return 0

  if [ "$(id -u)" -eq 0 ]; then as_root=
  elif command -v sudo >/dev/null; then as_root=sudo
  else
    echo "These packages are missing; install them as root, then start again:$missing" >&2
    return 1
  fi

  echo "Installing:$missing" >&2
  $as_root apt-get -o DPkg::Lock::Timeout=300 -qq update >&2 &&
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=300 -qq -y \
    --no-install-recommends install $missing >&2
}
