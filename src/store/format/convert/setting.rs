//! Setting and storage: from the file to the recipe and back.

use std::collections::HashMap;
use std::sync::Arc;

use super::super::outline::PathStep::{self, Field};
use super::super::problem::{FormatError, Problem};
use super::super::v1;
use super::FileReader;
use crate::ingredient::Ingredient;
use crate::recipe::{Humidity, Piece, PlaceTemperature, Setting, SettingError, Shell, Size, Storage};
use crate::units::Celsius;

impl FileReader<'_> {
    pub(super) fn setting(&self, setting: &v1::Setting) -> Result<Setting, FormatError> {
        let figure = |field, value| self.place_temperature(&[Field("setting"), Field(field)], value);
        Ok(Setting {
            piece: self.piece(setting.piece)?,
            start: setting.start_c.map(|celsius| figure("start_c", celsius)).transpose()?,
            surroundings: figure("air_c", setting.air_c)?,
            air: setting.air.into(),
        })
    }

    fn piece(&self, piece: v1::Piece) -> Result<Piece, FormatError> {
        let size = |field, millimetres| self.length(&[Field("setting"), Field("piece"), Field(field)], millimetres);
        Ok(match piece {
            v1::Piece::Frame { thickness_mm, on } => {
                Piece::Frame { thickness: size("thickness_mm", thickness_mm)?, base: on.into() }
            }
            v1::Piece::Bar { thickness_mm } => Piece::Bar { thickness: size("thickness_mm", thickness_mm)? },
            v1::Piece::HalfSphere { diameter_mm } => Piece::HalfSphere { diameter: size("diameter_mm", diameter_mm)? },
            v1::Piece::Cup { diameter_mm, height_mm } => {
                Piece::Cup { diameter: size("diameter_mm", diameter_mm)?, height: size("height_mm", height_mm)? }
            }
            v1::Piece::Ball { diameter_mm } => Piece::Ball { diameter: size("diameter_mm", diameter_mm)? },
            v1::Piece::Coat { thickness_mm } => Piece::Coat { thickness: size("thickness_mm", thickness_mm)? },
            v1::Piece::Bowl => Piece::Bowl,
        })
    }

    pub(super) fn storage(
        &self,
        storage: Option<&v1::Storage>,
        own: &HashMap<&str, &Arc<Ingredient>>,
    ) -> Result<Storage, FormatError> {
        let Some(storage) = storage else { return Ok(Storage::default()) };
        let figure = |field, value| self.place_temperature(&[Field("storage"), Field(field)], value);
        let shell = storage.shell.as_ref().map(|shell| {
            let path = |field| [Field("storage"), Field("shell"), Field(field)];
            Ok(Shell {
                chocolate: self.ingredient(&path("ingredient"), &shell.ingredient, own)?,
                thickness: self.length(&path("thickness_mm"), shell.thickness_mm)?,
            })
        });
        Ok(Storage {
            at: figure("celsius", storage.celsius)?,
            room: figure("room_c", storage.room_c)?,
            humidity: Humidity::from_percent(storage.humidity_percent)
                .map_err(|error| self.refuse_setting(&[Field("storage"), Field("humidity_percent")], error))?,
            shell: shell.transpose()?,
        })
    }

    fn place_temperature(&self, path: &[PathStep], celsius: f64) -> Result<PlaceTemperature, FormatError> {
        PlaceTemperature::new(Celsius(celsius)).map_err(|error| self.refuse_setting(path, error))
    }

    fn length(&self, path: &[PathStep], millimetres: f64) -> Result<Size, FormatError> {
        Size::from_millimetres(millimetres).map_err(|error| self.refuse_setting(path, error))
    }

    fn refuse_setting(&self, path: &[PathStep], error: SettingError) -> FormatError {
        self.refuse(path, Problem::Setting(error))
    }
}

pub(super) fn from_setting(setting: Setting) -> v1::Setting {
    v1::Setting {
        piece: match setting.piece {
            Piece::Frame { thickness, base } => {
                v1::Piece::Frame { thickness_mm: thickness.millimetres(), on: base.into() }
            }
            Piece::Bar { thickness } => v1::Piece::Bar { thickness_mm: thickness.millimetres() },
            Piece::HalfSphere { diameter } => v1::Piece::HalfSphere { diameter_mm: diameter.millimetres() },
            Piece::Cup { diameter, height } => {
                v1::Piece::Cup { diameter_mm: diameter.millimetres(), height_mm: height.millimetres() }
            }
            Piece::Ball { diameter } => v1::Piece::Ball { diameter_mm: diameter.millimetres() },
            Piece::Coat { thickness } => v1::Piece::Coat { thickness_mm: thickness.millimetres() },
            Piece::Bowl => v1::Piece::Bowl,
        },
        start_c: setting.start.map(|start| start.celsius().0),
        air_c: setting.surroundings.celsius().0,
        air: setting.air.into(),
    }
}

/// Where pieces lie; nothing where it is what is taken anyway.
pub(super) fn from_storage<'a>(
    storage: &'a Storage,
    id_of: impl FnOnce(&'a Arc<Ingredient>) -> String,
) -> Option<v1::Storage> {
    (*storage != Storage::default()).then(|| v1::Storage {
        celsius: storage.at.celsius().0,
        room_c: storage.room.celsius().0,
        humidity_percent: storage.humidity.percent(),
        shell: storage.shell.as_ref().map(|shell| v1::Shell {
            ingredient: id_of(&shell.chocolate),
            thickness_mm: shell.thickness.millimetres(),
        }),
    })
}
